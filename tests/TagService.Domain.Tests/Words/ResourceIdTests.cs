using TagService.Domain.Words;

namespace TagService.Domain.Tests.Words;

/// <summary>Which texts an address can carry: RFC 3986, sections 2.1 and 5.2.4, with .NET's own reading of addresses as the judge.</summary>
public sealed class ResourceIdTests
{
    [Theory]
    [InlineData(".", false)]
    [InlineData("..", false)]
    [InlineData("", false)]
    [InlineData("a%2Fb", false)]
    [InlineData("a%2fb", false)]
    [InlineData("a\u0000", false)]
    [InlineData("a\n", false)]
    [InlineData("a\u0085", false)]
    [InlineData("...", true)]
    [InlineData(".a", true)]
    [InlineData("a/../b", true)]
    [InlineData("a/.", true)]
    [InlineData("%2E", true)]
    [InlineData("a b?c#d;e\\f%g", true)]
    [InlineData("P-2041", true)]
    [InlineData("Prüfstück №7 \ud83d\udd27", true)]
    [InlineData(" ", true)]
    public void FaultOf_Text_IsNullExactlyWhenAnAddressBringsItBack(string id, bool usable) => Assert.Equal(usable, ResourceId.FaultOf(id) is null);

    // As code: an attribute would replace the half character before the test sees it.
    [Fact]
    public void FaultOf_HalfACharacter_IsNamed()
    {
        foreach (var id in new[] { "a" + (char)0xD800, (char)0xDC00 + "b", $"{(char)0xD83D}{(char)0xD83D}{(char)0xDD27}" })
            Assert.Contains("surrogate", ResourceId.FaultOf(id), StringComparison.Ordinal);
    }

    // What is accepted arrives: written as one escaped segment, taken apart again as the server does it (all escapes but %2F, then %2F).
    [Fact]
    public void FaultOf_AnyAcceptedText_SurvivesTheWayThroughAnAddress() => CsCheck.Check.Sample(
        CsCheck.Gen.String[CsCheck.Gen.OneOf(CsCheck.Gen.Char["./%2Ff\\ ?#;&=+a"], CsCheck.Gen.Char), 1, 8],
        id =>
        {
            if (ResourceId.FaultOf(id) is not null)
                return;
            var segment = new Uri($"http://host/v1/assets/{Uri.EscapeDataString(id)}/attachments").AbsolutePath["/v1/assets/".Length..^"/attachments".Length];
            var arrived = Uri.UnescapeDataString(segment.Replace("%2F", "%252F", StringComparison.OrdinalIgnoreCase)).Replace("%2F", "/", StringComparison.OrdinalIgnoreCase);
            Assert.Equal(id, arrived);
        },
        iter: 20_000);
}
