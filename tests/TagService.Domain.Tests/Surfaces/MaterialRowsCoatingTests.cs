using TagService.Domain.Surfaces;

namespace TagService.Domain.Tests.Surfaces;

/// <summary>Properties of the coating rows.</summary>
public sealed class MaterialRowsCoatingTests
{
    public static TheoryData<string> Ids => [.. Coatings.Table.All.Select(c => c.Id)];

    [Theory]
    [MemberData(nameof(Ids))]
    public void Coating_Row_IsCompleteAndFound(string id)
    {
        var c = Coatings.Table[id];
        Assert.False(string.IsNullOrWhiteSpace(c.Source));
        Assert.Equal(c.Id == "bare", c.SurfaceEnergyMnPerM is null);
        if (c.SurfaceEnergyMnPerM is { } e)
            Assert.True(e.Low > 10 && e.Low <= e.Usual && e.Usual <= e.High && e.High < 2000);
        foreach (var word in c.Synonyms.Append(c.Name).Append(c.Id))
        {
            var found = Coatings.Find(word);
            Assert.NotNull(found);
            Assert.True(ReferenceEquals(found, c) || found.Synonyms.Contains(word), $"{word}: {found.Id}");
        }
    }

    [Fact]
    public void Coatings_Registry_HasTheNumberThatWasAskedFor() => Assert.InRange(Coatings.Table.All.Count, 10, 100);

    // Common practice: what comes off takes the tag with it.
    [Fact]
    public void Coatings_LooseOrOily_MustBeRemoved()
    {
        Assert.All(["oily", "rust", "dusty", "loose-paint", "waxed"], id => Assert.True(Coatings.Table[id].MustBeRemoved, id));
        Assert.All(["bare", "paint", "powder-coat", "galvanised", "anodised"], id => Assert.False(Coatings.Table[id].MustBeRemoved, id));
    }

    // Invented register words.
    [Theory]
    [InlineData("pulverbeschichtet RAL 7035", "powder-coat")]
    [InlineData("feuerverzinkt", "galvanised")]
    [InlineData("peinture époxy", "paint")]
    [InlineData("ohne", "bare")]
    [InlineData("Ölig", "oily")]
    [InlineData("oelig", "oily")]
    [InlineData("anodizado", "anodised")]
    [InlineData("zardzewiały", "rust")]
    [InlineData("Powder-coated", "powder-coat")]
    public void Find_RegisterWords_FindsTheCoating(string words, string id) => Assert.Equal(id, Coatings.Find(words)?.Id);
}
