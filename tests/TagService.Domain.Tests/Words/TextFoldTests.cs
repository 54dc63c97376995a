using TagService.Domain.Words;

namespace TagService.Domain.Tests.Words;

public sealed class TextFoldTests
{
    [Theory]
    [InlineData("Kühlschränke", "kuhlschranke")]
    [InlineData("Kuehlschraenke", "kuhlschranke")]
    [InlineData("ÉCHELLE coulissante", "echelle coulissante")]
    [InlineData("e\u0301chelle", "echelle")]
    [InlineData("Straße", "strasse")]
    [InlineData("gaśnica / młotek", "gasnica/mlotek")]
    [InlineData("Pump, 5,5 kW", "pump,5 5 kw")]
    [InlineData("Tor - links", "tor,links")]
    [InlineData("E-Motor", "e motor")]
    [InlineData("  (a)  ", "a,")]
    public void Fold_Text_GivesOneForm(string text, string folded) => Assert.Equal(folded, TextFold.Fold(text));

    [Fact]
    public void Fold_TooShortOutput_CutsAndStaysWithin()
    {
        Span<char> output = stackalloc char[8];
        Assert.InRange(TextFold.Fold(new string('ß', 100), output), 1, 8);
    }
}

public sealed class EditDistanceTests
{
    // Textbook pair (Wikipedia, "Levenshtein distance"): kitten, sitting: 3.
    [Theory]
    [InlineData("kitten", "sitting", 3)]
    [InlineData("", "abc", 3)]
    [InlineData("flaw", "lawn", 2)]
    public void Between_TextbookPairs_GivesTheirDistance(string a, string b, int distance) =>
        Assert.Equal(distance, EditDistance.Between(a, b));

    [Theory]
    [InlineData("monitor", "monitor", true)]
    [InlineData("monitor", "moniotr", true)]
    [InlineData("monitor", "monito", true)]
    [InlineData("monitor", "monnitor", true)]
    [InlineData("monitor", "manitor", true)]
    [InlineData("monitor", "mnoitro", false)]
    [InlineData("monitor", "moito", false)]
    public void IsAtMostOne_Pairs_CountsSwapsAsOne(string a, string b, bool near) =>
        Assert.Equal(near, EditDistance.IsAtMostOne(a, b));

    /// <summary>A swap of neighbours is one error, one of the four that make 80 % of typing errors (Damerau 1964, from memory).</summary>
    [Theory]
    [InlineData("pmup", "pump", true)]
    [InlineData("vavle", "valve", true)]
    [InlineData("pump", "pump", false)]
    [InlineData("pmpu", "pump", false)]
    [InlineData("dump", "pump", false)]
    [InlineData("pums", "pump", false)]
    [InlineData("pum", "pump", false)]
    [InlineData("mpup", "pump", false)]
    public void IsOneSwap_Pairs_TakesNothingElse(string a, string b, bool swapped)
    {
        Assert.Equal(swapped, EditDistance.IsOneSwap(a, b));
        Assert.Equal(swapped, EditDistance.IsOneSwap(b, a));
    }
}
