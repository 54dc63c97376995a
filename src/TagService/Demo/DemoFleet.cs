using System.Globalization;
using System.Text.Json;
using TagService.Domain.Recommendations;
using TagService.Domain.Reference;
using TagService.Storage.Bulk;

namespace TagService.Demo;

/// <summary>
/// Ellsmoor Water: an invented water utility and its assets, written the way registers are: a third thin, some with maker
/// and type, some with measurements, some misspelt. The same seed gives the same fleet.
/// </summary>
public static class DemoFleet
{
    /// <summary>The made-up organisation.</summary>
    public const string Name = "Ellsmoor Water";

    /// <summary>Seed of the fleet that is loaded.</summary>
    public const int DefaultSeed = 20_240_501;

    /// <summary>Goes up when the same seed gives another fleet than before.</summary>
    public const int Version = 2;

    /// <summary>Added to every record, so that nobody takes it for a real one.</summary>
    public const string Mark = "invented demo asset";

    // Shares of records by how much they say; the rest is well kept.
    private const double ThinShare = 0.30;
    private const double OrdinaryShare = 0.40;

    // How often a category is written in one of the odd ways, and a well-kept record says one of its parts.
    private const double OddSpelling = 0.35;
    private const double PartKnown = 0.75;

    /// <summary>The invented sites.</summary>
    public static IReadOnlyList<DemoSite> Sites { get; } = Load<DemoSite>("demo-sites.data.json");

    /// <summary>The kinds of assets.</summary>
    public static IReadOnlyList<DemoKind> Kinds { get; } = Load<DemoKind>("demo-kinds.data.json");

    /// <summary>All assets, by site and kind.</summary>
    public static IReadOnlyList<AssetToLoad> Generate(int seed = DefaultSeed)
    {
        var random = new SplitMix((ulong)seed);
        var assets = new List<AssetToLoad>();
        foreach (var site in Sites)
            foreach (var kind in Kinds)
                for (var i = kind.Counts.GetValueOrDefault(site.Kind); i > 0; i--)
                    assets.Add(new(Record(kind, assets.Count + 1, random), $"{site.Name} / {random.Pick(kind.Rooms)}"));
        return assets;
    }

    private static AssetRecord Record(DemoKind kind, int number, SplitMix random)
    {
        var record = new AssetRecord
        {
            AssetId = string.Create(CultureInfo.InvariantCulture, $"EW-{kind.Code}-{number:00000}"),
            Category = random.Chance(OddSpelling) ? random.Pick(kind.Categories) : kind.Categories[0],
            Attributes = new SortedDictionary<string, string>(StringComparer.Ordinal) { ["remark"] = Mark },
        };
        var detail = random.Fraction();
        if (detail < ThinShare)
            return record;
        record = record with { Description = random.Pick(kind.Descriptions), Attributes = Plate(kind, number, random) };
        return detail < ThinShare + OrdinaryShare ? record : WithParts(record, kind.Full, random);
    }

    private static SortedDictionary<string, string> Plate(DemoKind kind, int number, SplitMix random)
    {
        var maker = random.Pick(kind.Makers);
        return new(StringComparer.Ordinal)
        {
            ["remark"] = Mark,
            ["manufacturer"] = maker,
            ["model"] = string.Create(CultureInfo.InvariantCulture, $"{maker[..2].ToUpperInvariant()}-{100 + random.Below(9) * 50}"),
            ["serialNo"] = string.Create(CultureInfo.InvariantCulture, $"{number * 7919 % 100_000:00000}/{10 + random.Below(15)}"),
        };
    }

    private static AssetRecord WithParts(AssetRecord record, AssetRecord full, SplitMix random) => record with
    {
        Surface = random.Chance(PartKnown) ? full.Surface : null,
        Mounting = random.Chance(PartKnown) ? Measured(full.Mounting, random) : null,
        Environment = random.Chance(PartKnown) ? full.Environment : null,
        Contents = random.Chance(PartKnown) ? full.Contents : null,
        Reading = random.Chance(PartKnown) ? full.Reading : null,
        Service = random.Chance(PartKnown) ? full.Service : null,
    };

    // No two assets leave quite the same room: 70 % to 130 %.
    private static MountingRecord? Measured(MountingRecord? mounting, SplitMix random) => mounting is null ? null : mounting with
    {
        LengthMm = Scale(mounting.LengthMm, random),
        WidthMm = Scale(mounting.WidthMm, random),
    };

    private static double? Scale(double? mm, SplitMix random) =>
        mm is { } value ? Math.Round(value * (0.7 + 0.6 * random.Fraction())) : null;

    private static T[] Load<T>(string fileName)
    {
        using var stream = typeof(DemoFleet).Assembly.GetManifestResourceStream(fileName)
            ?? throw new InvalidOperationException($"{fileName} is not embedded.");
        return JsonSerializer.Deserialize<T[]>(stream, ReferenceData.Options)!;
    }
}
