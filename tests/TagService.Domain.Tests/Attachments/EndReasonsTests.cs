using System.Text.RegularExpressions;
using TagService.Domain.Attachments;

namespace TagService.Domain.Tests.Attachments;

public sealed partial class EndReasonsTests
{
    [Fact]
    public void EveryReason_IsComplete() => Assert.All(EndReasons.All, reason =>
    {
        Assert.Matches(Kebab(), reason.Id);
        Assert.All(new[] { reason.Name, reason.Meaning, reason.Source }, text => Assert.False(string.IsNullOrWhiteSpace(text)));
        // A tag that answered when it was taken off has not failed, and what never was has no end.
        if (reason.AnsweredAtEnd)
            Assert.Equal(EndKind.Removal, reason.Kind);
    });

    [Fact]
    public void Reasons_ThereIsOneOfEveryKindAndOneForNotKnowing()
    {
        Assert.Equal(Enum.GetValues<EndKind>(), EndReasons.All.Select(r => r.Kind).Distinct().Order());
        Assert.Equal(EndKind.Unknown, EndReasons.Table["not-known"].Kind);
    }

    [GeneratedRegex("^[a-z0-9]+(-[a-z0-9]+)*$")]
    private static partial Regex Kebab();
}
