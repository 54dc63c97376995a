using TagService.Domain.Registers;

namespace TagService.Domain.Tests.Registers;

/// <summary>What a run decides without a database. Rows are invented; the bounds are a planning rule of this service.</summary>
public sealed class RegisterRunTests
{
    [Fact]
    public void RowHash_AnythingThatDiffers_GivesAnotherHash()
    {
        var rows = new[]
        {
            RegisterRow.OfTexts(("id", "A"), ("name", "bc")), RegisterRow.OfTexts(("id", "Ab"), ("name", "c")), RegisterRow.OfTexts(("id", "A"), ("name", null)),
            RegisterRow.OfTexts(("id", "A"), ("title", "bc")), RegisterRow.OfTexts(("name", "bc"), ("id", "A")), RegisterRow.OfTexts(("id", "A")),
            new RegisterRow(new(["id", "name"], areJsonPointers: false), [RegisterValue.OfText("A"), RegisterValue.OfList(["b", "c"])]),
            new RegisterRow(new(["id", "name"], areJsonPointers: false), [RegisterValue.OfText("A"), RegisterValue.OfList(["bc"])]),
            new RegisterRow(new(["id", "name"], areJsonPointers: false), [RegisterValue.OfNumber("1"), RegisterValue.OfText("bc")]),
            new RegisterRow(new(["id", "name"], areJsonPointers: false), [RegisterValue.OfText("1"), RegisterValue.OfText("bc")]),
        };
        var (one, other) = (new RowHash("settings 1"), new RowHash("settings 2"));
        var hashes = rows.SelectMany(r => new[] { one.Of(r), other.Of(r) }).Select(Convert.ToHexString).ToList();
        Assert.Equal(2 * rows.Length, hashes.Distinct().Count());
        Assert.All(hashes, h => Assert.Equal(2 * RowHash.Bytes, h.Length));
        Assert.Equal(hashes, rows.SelectMany(r => new[] { new RowHash("settings 1").Of(r), new RowHash("settings 2").Of(r) }).Select(Convert.ToHexString));
    }

    [Theory]
    [InlineData(0, 0.05, 10)]
    [InlineData(200, 0.05, 10)]
    [InlineData(219, 0.05, 10)]
    [InlineData(220, 0.05, 11)]
    [InlineData(200_000, 0.05, 10_000)]
    [InlineData(5, 1, 10)]
    [InlineData(300, 0, 10)]
    public void MissingAssets_Share_IsRoundedDownAndNeverBelowTen(long listed, double share, long allowed) =>
        Assert.Equal(allowed, MissingAssets.MostAllowed(listed, share));

    [Theory]
    [InlineData(-1, 0.05)]
    [InlineData(1, -0.01)]
    [InlineData(1, 1.01)]
    [InlineData(1, double.NaN)]
    public void MissingAssets_OutOfRange_Throws(long listed, double share) =>
        Assert.ThrowsAny<ArgumentOutOfRangeException>(() => MissingAssets.MostAllowed(listed, share));
}
