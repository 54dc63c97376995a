using BenchmarkDotNet.Attributes;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Surfaces;
using TagService.Domain.TagClasses;

namespace TagService.Benchmarks;

/// <summary>
/// The radio part of a recommendation: budget 100 microseconds of CPU for the whole catalogue. Each operation of the catalogue
/// benchmarks is one recommendation's work over all built-in classes.
/// </summary>
[MemoryDiagnoser, MedianColumn]
public class RadioBenchmarks
{
    private static readonly TagClass[] Classes = [.. TagClassCatalogue.BuiltIn.All];
    private static readonly Material Air = Of("air", MaterialKind.Air, null);
    private static readonly Material Steel = Of("steel", MaterialKind.Metal, null);
    private static readonly Material Tissue = Of("muscle", MaterialKind.Tissue, new() { Model = PermittivityFormula.ColeCole4, Tissue = "muscle" });
    private static readonly Material Glass = Of("glass", MaterialKind.Dielectric, new() { Model = PermittivityFormula.ItuP2040, Coefficients = [6.31, 0, 0.0036, 1.3394] });

    private readonly ReadingSituation _circular = Reading(ReaderPolarization.Circular);
    private readonly ReadingSituation _linear = Reading(ReaderPolarization.Linear);
    private RangePrediction _one = null!;
    private RangePrediction _mixed = null!;
    private double _distanceM = 3.3;

    /// <summary>What the asset's surface is.</summary>
    [Params("steel", "glass", "muscle")]
    public string On { get; set; } = "steel";

    /// <summary>Prepares the single predictions.</summary>
    [GlobalSetup]
    public void Setup()
    {
        _one = new RadioScene(Surface(), _circular).Predict(Classes[0]);
        _mixed = new RadioScene(Surface(), _linear).Predict(Classes[0]);
    }

    /// <summary>A fresh asset: scene, ranges and required-range probability of every class, circular reader.</summary>
    [Benchmark(Baseline = true)]
    public double Catalogue_CircularReader() => All(Surface(), _circular);

    /// <summary>The same with a linear reader and unknown orientation, where polarisation is a distribution.</summary>
    [Benchmark]
    public double Catalogue_LinearReaderAnyOrientation() => All(Surface(), _linear);

    /// <summary>One P(read) at one distance, three looks.</summary>
    [Benchmark]
    public double ReadProbability_ThreeLooks() => _one.ReadProbability(NextM(), 3);

    /// <summary>One P(read) where polarisation is a distribution, three looks.</summary>
    [Benchmark]
    public double ReadProbability_ThreeLooksAnyOrientation() => _mixed.ReadProbability(NextM(), 3);

    /// <summary>The whole loss budget with its texts, as the best five candidates get it.</summary>
    [Benchmark]
    public int Explain() => _one.Explain().Count;

    /// <summary>Two distances in turn: a prediction remembers the last one asked.</summary>
    private double NextM() => _distanceM = 6.5 - _distanceM;

    private static double All(MountedSurface surface, ReadingSituation reading)
    {
        // As the recommendation does it: one scene for the whole catalogue.
        var scene = new RadioScene(surface, reading);
        double sum = 0;
        foreach (var c in Classes)
        {
            var p = scene.Predict(c);
            sum += p.P10M + p.P50M + p.P90M + p.ReadProbability(3, reading.Looks);
        }

        return sum;
    }

    private MountedSurface Surface() => new()
    {
        Material = On switch { "steel" => Steel, "glass" => Glass, _ => Tissue },
        ThicknessMm = 4,
        Backing = Air,
        AddedStandoffMm = 0,
        LengthMm = 200,
        WidthMm = 120,
    };

    private static ReadingSituation Reading(ReaderPolarization polarization) => new()
    {
        Region = RadioTables.Regions["eu"],
        Reader = RadioTables.Readers["handheld"],
        Site = RadioTables.Sites["warehouse"],
        Polarization = polarization,
        TagOrientation = TagOrientation.Any,
        Looks = 3,
    };

    private static Material Of(string id, MaterialKind kind, PermittivityModel? model) =>
        new() { Id = id, Name = id, Synonyms = [], Kind = kind, Permittivity = model, Source = "benchmark" };
}
