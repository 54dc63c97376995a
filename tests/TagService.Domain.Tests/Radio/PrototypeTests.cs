using System.Text.Json;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Radio;

/// <summary>
/// Academic prototypes measured on objects, from prototypes.json (source, status and assumptions stand there): the measured range must
/// lie within p5-p95 of a class of that size and construction, and the band must be narrow enough to mean something. Only abstracts
/// could be read, so chip thresholds are the class's own unless stated.
/// </summary>
public sealed class PrototypeTests
{
    public static TheoryData<string> Usable => [.. All.Where(p => p.NotUsedBecause is null).Select(p => p.Id)];

    [Theory]
    [MemberData(nameof(Usable))]
    public void Prototype_MeasuredRange_LiesWithinTheBand(string id)
    {
        var prototype = All.Single(p => p.Id == id);
        var prediction = RangePredictor.Predict(Class(prototype), Surface(prototype), Reading(prototype));
        double low = prediction.RangeQuantileM(0.05), high = prediction.RangeQuantileM(0.95);
        Assert.True(high / low <= 4, $"p95/p5 is {high / low:0.00}");
        Assert.True(
            prototype.MeasuredM >= low && prototype.MeasuredM <= high,
            FormattableString.Invariant($"{prototype.MeasuredM} m outside {low:0.0}-{high:0.0} m (median {prediction.P50M:0.0} m)"));
    }

    // A band that is right nine times in ten by chance only would scatter evenly; the medians must also not be biased as a whole.
    [Fact]
    public void Prototypes_Together_ShowNoLargeBias()
    {
        var errorsDb = All.Where(p => p.NotUsedBecause is null)
            .Select(p => 20 * Math.Log10(p.MeasuredM / RangePredictor.Predict(Class(p), Surface(p), Reading(p)).P50M)).ToArray();
        Assert.InRange(errorsDb.Average(), -PlanningValues.ClassSurfaceSigmaDb, PlanningValues.ClassSurfaceSigmaDb);
    }

    [Fact]
    public void Prototypes_FoundForThisProject_AreAtLeastFiveUsable() =>
        Assert.True(All.Count(p => p is { New: true, NotUsedBecause: null }) >= 5);

    private static TagClass Class(Prototype p)
    {
        if (p.TagClassId is { } id)
            return TagClassCatalogue.BuiltIn[id];
        if (p.StatedGainDbi is { } gain)
            return TestRows.Ground(p.Id, 80, 80, gain, 7, p.PlateMm!.Value, p.ThresholdDbm!.Value) is var g
                ? g with { Antenna = g.Antenna with { Polarization = TagPolarization.Linear } }
                : g;

        // Known by its range on foam: a dipole class with just that gain over its threshold.
        var borne = FreeSpace.LossDb(p.FrequencyMhz!.Value, p.ReferenceRangeM!.Value);
        return TestRows.Dipole(p.Id, 95, 20, borne - EirpDbm(p) - 20, p.BandwidthMhz!.Value, thresholdDbm: -20);
    }

    private static MountedSurface Surface(Prototype p) => TestRows.On(
        TestRows.Materials.Single(m => m.Id == p.Surface), p.ThicknessMm ?? 1, lengthMm: p.PlateMm ?? 300, widthMm: p.PlateMm ?? 300);

    private static ReadingSituation Reading(Prototype p) => TestRows.Reading(
        polarization: ReaderPolarization.Linear, orientation: TagOrientation.Aligned) with
    {
        EirpDbm = EirpDbm(p),
        ReaderSensitivityDbm = -90,
        Region = new()
        {
            Id = "laboratory",
            Name = "laboratory",
            Countries = [],
            Bands =
            [
                new()
                {
                    LowMhz = p.FrequencyMhz!.Value - 0.5,
                    HighMhz = p.FrequencyMhz.Value + 0.5,
                    LimitWatts = 10,
                    Reference = PowerReference.Eirp,
                    Rule = "laboratory",
                    Status = "read",
                },
            ],
        },
    };

    private static double EirpDbm(Prototype p) => 30 + (10 * Math.Log10(p.EirpWatts ?? 3.28));

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Strict) { PropertyNamingPolicy = JsonNamingPolicy.CamelCase };

    private static IReadOnlyList<Prototype> All { get; } = Load();

    private static Prototype[] Load()
    {
        using var stream = typeof(PrototypeTests).Assembly.GetManifestResourceStream("prototypes.json")!;
        return JsonSerializer.Deserialize<Prototype[]>(stream, Json)!;
    }

    private sealed record Prototype
    {
        public required string Id { get; init; }

        public required string Source { get; init; }

        public required string Status { get; init; }

        public required string Construction { get; init; }

        public double[]? SizeMm { get; init; }

        public required string Surface { get; init; }

        public double? ThicknessMm { get; init; }

        public double? PlateMm { get; init; }

        public double? EirpWatts { get; init; }

        public double? FrequencyMhz { get; init; }

        public required double MeasuredM { get; init; }

        public double? ReferenceRangeM { get; init; }

        public double? BandwidthMhz { get; init; }

        public double? StatedGainDbi { get; init; }

        public double? ThresholdDbm { get; init; }

        public string? TagClassId { get; init; }

        public required string[] Assumed { get; init; }

        public string? NotUsedBecause { get; init; }

        public bool New { get; init; }
    }
}
