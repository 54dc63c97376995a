using CsCheck;
using TagService.Domain.Places;

namespace TagService.Domain.Tests.Places;

public sealed class PlaceNameTests
{
    // Spellings of one room as registers hold them: common practice.
    [Theory]
    [InlineData("Pump Hall", "pump hall")]
    [InlineData("  PUMP \t hall\u00A0", "pump hall")]
    [InlineData("Zürich  HALLE", "zürich halle")]
    [InlineData("ΣΤΟΑ", "στοα")]
    [InlineData("Hall 1/2", "hall 1/2")]
    [InlineData(" ", "")]
    public void Fold_Spellings_AreOne(string name, string folded) => Assert.Equal(folded, PlaceName.Fold(name));

    [Theory]
    [InlineData("Hall 1", "Hall 11")]
    [InlineData("Hall 1", "Hall1")]
    [InlineData("Müller", "Muller")]
    [InlineData("A-1", "A 1")]
    public void Fold_OtherRooms_StayApart(string one, string other) => Assert.NotEqual(PlaceName.Fold(one), PlaceName.Fold(other));

    [Fact]
    public void Fold_AnyText_FoldsToItselfWhateverCaseOrBlanksAround() => Gen.String.Sample(text =>
    {
        var folded = PlaceName.Fold(text);
        Assert.Equal(folded, PlaceName.Fold(folded));
        Assert.Equal(folded, PlaceName.Fold($" \n{text}\t "));
        Assert.Equal(folded, PlaceName.Fold(text.Replace(" ", "   ", StringComparison.Ordinal)));
    });

    [Fact]
    public void InfersSweeps_OfEachKind_OnlyWhereAPlaceIsWatchedAllTheTime()
    {
        // The rule stands in the description of read points: passages and walks are no evidence of absence by themselves.
        Assert.Equal([ReadPointKind.Area, ReadPointKind.Cabinet], Enum.GetValues<ReadPointKind>().Where(k => k.InfersSweeps()));
    }
}
