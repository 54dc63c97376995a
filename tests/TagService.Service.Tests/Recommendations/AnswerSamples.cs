using CsCheck;
using TagService.Domain.Profiles;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Surfaces;

namespace TagService.Service.Tests.Recommendations;

/// <summary>What an answer is written of.</summary>
/// <param name="Record">The record asked about.</param>
/// <param name="Options">What to include.</param>
/// <param name="OwnFields">Notices of the register's own fields.</param>
/// <param name="Line">Number of the line of a batch.</param>
public sealed record AnswerSample(AssetRecord Record, RecommendationOptions Options, IReadOnlyList<Notice> OwnFields, long Line);

/// <summary>Random records, thin to full, with texts of any characters where the answer repeats them.</summary>
internal static class AnswerSamples
{
    private static readonly Gen<string?> AnyText = Gen.OneOf(
        Gen.Const((string?)null), Gen.String[0, 40].Select(s => (string?)s), Gen.Const((string?)"Größe \"5\" \\ \u0007 🚰"));

    private static readonly Gen<Notice> AnyNotice = Gen.Select(Gen.String[0, 20], Gen.String[0, 40], Gen.String[0, 10], (p, t, c) => new Notice(p, t, c));

    private static readonly Gen<string?> Category = Maybe(AssetProfiles.Table.All.Select(p => p.Name));
    private static readonly Gen<string?> Material = Maybe(Materials.Table.All.Select(m => m.Id));
    private static readonly Gen<string?> Region = Maybe(RadioTables.Regions.All.Select(r => r.Id));
    private static readonly Gen<RecommendationOptions> Options = Gen.Select(Gen.Bool, Gen.Bool, (all, questions) => new RecommendationOptions(all, questions));

    private static readonly Gen<AssetRecord> Record =
        from id in AnyText
        from category in Gen.OneOf(Category, AnyText)
        from description in AnyText
        from material in Gen.OneOf(Material, AnyText)
        from region in Region
        from currency in AnyText
        from height in Maybe(0.2, 40)
        from range in Maybe(0.05, 30)
        from life in Maybe(0.5, 30)
        from rate in Maybe(0, 200)
        from setting in Gen.Enum<Setting>()
        from zone in Gen.Int[0, 9]
        select new AssetRecord
        {
            AssetId = id,
            Category = category,
            Description = description,
            Surface = new() { Material = material },
            Mounting = new() { MaxHeightMm = height },
            Environment = new() { Setting = setting, HazardousArea = zone == 0 ? new() { Zone = "1" } : null },
            Reading = new() { RequiredRangeM = range, Region = region },
            Service = new() { LifeYears = life, Currency = currency, LabourRatePerHour = rate },
        };

    public static Gen<AnswerSample> Records { get; } =
        Gen.Select(Record, Options, AnyNotice.Array[0, 3], Gen.Long[1, long.MaxValue], (r, o, n, l) => new AnswerSample(r, o, n, l));

    private static Gen<string?> Maybe(IEnumerable<string> values)
    {
        string?[] all = [null, .. values];
        return Gen.Int[0, all.Length - 1].Select(i => all[i]);
    }

    private static Gen<double?> Maybe(double low, double high) =>
        Gen.OneOf(Gen.Const((double?)null), Gen.Double[low, high].Select(d => (double?)d));
}
