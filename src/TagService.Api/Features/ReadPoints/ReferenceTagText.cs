using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Identity.Text;

namespace TagService.Api.Features.ReadPoints;

/// <summary>Reference tags as they are entered: identities in any text form, kept as entered, compared by what they mean.</summary>
internal static class ReferenceTagText
{
    /// <summary>Most reference tags of one read point.</summary>
    public const int MaxCount = 100;

    private const int MaxLength = 300;

    public static ApiProblem? Problem(IReadOnlyList<string> tags) =>
        TextRules.OfItems("referenceTags", tags, MaxLength) ?? OfIdentities(tags) ?? TextRules.OfRepeats("referenceTags", tags, Key);

    private static ApiProblem? OfIdentities(IReadOnlyList<string> tags)
    {
        ProblemError[] wrong =
        [
            .. tags.Index().Select(t => (t.Index, Refused: IdentityText.Parse(t.Item) as IdentityRefused)).Where(t => t.Refused is not null).Select(t => new ProblemError(
                TextRules.Pointer("referenceTags", t.Index), JsonText.Clip(tags[t.Index]), $"This is no identity: {t.Refused!.Reason.Detail}", t.Refused.Reason.Accepted)),
        ];
        return wrong.Length == 0 ? null : new(ProblemTypes.InvalidFields, "referenceTags holds a text that is no identity.", wrong);
    }

    private static string Key(string tag) => ((IdentityRead)IdentityText.Parse(tag)).Key.ToString();
}
