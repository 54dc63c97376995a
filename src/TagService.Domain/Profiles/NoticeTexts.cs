using TagService.Domain.Radio;
using TagService.Domain.Suitability;
using TagService.Domain.Surfaces;

namespace TagService.Domain.Profiles;

/// <summary>Writes the notices of a resolution: what was not understood, the nearest known names, what was done.</summary>
internal static class NoticeTexts
{
    private const int NearestNames = 3;
    private const int MostText = 80;

    public static IReadOnlyList<Notice> Of(Gaps gaps)
    {
        if (gaps.NotUnderstood is not { } missed)
            return [];
        var notices = new Notice[missed.Count];
        for (var i = 0; i < notices.Length; i++)
            notices[i] = Of(missed[i].Field, missed[i].Text);
        return notices;
    }

    private static Notice Of(ResolvedField field, string text)
    {
        var shown = text.Length > MostText ? text[..MostText] + "..." : text;
        var pointer = ResolvedFields.PointerOf(field);
        return field switch
        {
            ResolvedField.Material => new(pointer, Assumed("material", shown, Materials.Nearest(text, NearestNames)), "unknown-material"),
            ResolvedField.Coating => new(pointer, Assumed("coating", shown, Coatings.Nearest(text, NearestNames)), "unknown-coating"),
            ResolvedField.Backing => new(pointer, Assumed("backing", shown, Materials.Nearest(text, NearestNames)), "unknown-backing"),
            ResolvedField.Contents => new(pointer, Assumed("contents", shown, Materials.Nearest(text, NearestNames)), "unknown-contents"),
            ResolvedField.Region => new(pointer, Assumed("region", shown, Ids(RadioTables.Regions.All, r => r.Id)), "unknown-region"),
            ResolvedField.Site => new(pointer, Assumed("site", shown, Ids(RadioTables.Sites.All, s => s.Id)), "unknown-site"),
            ResolvedField.Currency => new(
                pointer,
                $"{shown} was given without a labour rate above 0, so all amounts are in {ProductDefault.All.Service!.Currency}: amounts in {shown} need the labour rate and your own prices in {shown}.",
                "currency-not-known"),
            ResolvedField.IpRequired => new(
                pointer, $"\"{shown}\" is no IP code (such as IP66, IP68) and was left out: check that the choice protects enough.", "unknown-ip-code"),
            _ => new(
                pointer,
                $"The chemical \"{shown}\" was not recognised and was left out: check that the choice bears it. Known: {string.Join(", ", Ids(Chemicals.Families.All, c => c.Id))}.",
                "unknown-chemical"),
        };
    }

    private static string Assumed(string what, string shown, IEnumerable<string> nearest) =>
        $"The {what} \"{shown}\" was not recognised; it was assumed instead. Known: {string.Join(", ", nearest)}.";

    private static IEnumerable<string> Ids<T>(IReadOnlyList<T> rows, Func<T, string> id) => rows.Select(id);
}
