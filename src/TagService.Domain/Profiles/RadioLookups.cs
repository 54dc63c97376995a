using System.Collections.Frozen;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>Radio tables by the words of a record.</summary>
internal static class RadioLookups
{
    private static readonly FrozenDictionary<string, RadioRegion> ByCountry = RadioTables.Regions.All
        .SelectMany(r => r.Countries.Append(r.Name).Select(c => (c, r)))
        .DistinctBy(p => p.c, StringComparer.OrdinalIgnoreCase)
        .ToFrozenDictionary(p => p.c, p => p.r, StringComparer.OrdinalIgnoreCase);

    private static readonly ReaderKindRow[] Readers =
        [.. Enum.GetValues<ReaderKind>().Select(k => RadioTables.Readers[k.ToString()])];

    /// <summary>A region by its id, a country code or its name; the first region of a country is its usual one.</summary>
    public static RadioRegion? Region(string text)
    {
        var trimmed = text.Trim();
        return RadioTables.Regions.Find(trimmed) ?? (ByCountry.TryGetValue(trimmed, out var r) ? r : null);
    }

    public static ReaderKindRow Reader(ReaderKind kind) => Readers[(int)kind];
}
