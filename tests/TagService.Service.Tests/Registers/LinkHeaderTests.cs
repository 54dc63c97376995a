using TagService.Intake.Registers.Http;

namespace TagService.Service.Tests.Registers;

public sealed class LinkHeaderTests
{
    // The first four rows: examples of RFC 8288, section 3.5 (from memory), with "next" in place of other relations where they have none.
    [Theory]
    [InlineData("<http://example.com/TheBook/chapter2>; rel=\"previous\"; title=\"previous chapter\"", null)]
    [InlineData("</>; rel=\"http://example.net/foo\"", null)]
    [InlineData("</TheBook/chapter2>; rel=\"previous\"; title*=UTF-8'de'letztes%20Kapitel, </TheBook/chapter4>; rel=\"next\"; title*=UTF-8'de'n%c3%a4chstes%20Kapitel", "/TheBook/chapter4")]
    [InlineData("<http://example.org/>; rel=\"start http://example.net/relation/other next\"", "http://example.org/")]
    [InlineData("<?page=2>; rel=next", "?page=2")]
    [InlineData("<a>;REL=NEXT", "a")]
    [InlineData("<a>; rel=prev; rel=next", null)]
    [InlineData("<a,b;c>; title=\"x, <y>; rel=next\"; rel=last, <z>; rel=next", "z")]
    [InlineData("<a>", null)]
    [InlineData("garbage; rel=next", null)]
    [InlineData("<a; rel=next", null)]
    [InlineData("<a>; rel=\"next", "a")]
    [InlineData("", null)]
    public void Next_FieldAsWritten_GivesTheTarget(string field, string? target) => Assert.Equal(target, LinkHeader.Next([field]));
}
