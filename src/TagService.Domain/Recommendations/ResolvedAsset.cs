using TagService.Domain.Profiles;
using TagService.Domain.Radio;
using TagService.Domain.Suitability;
using TagService.Domain.Surfaces;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Recommendations;

/// <summary>An asset record with every gap filled: what the rules and the radio calculation work on.</summary>
public sealed record ResolvedAsset
{
    /// <summary>The profile the gaps were filled from.</summary>
    public required AssetProfile Profile { get; init; }

    /// <summary>Material at the surface.</summary>
    public required Material Material { get; init; }

    /// <summary>Coating on that material.</summary>
    public required Coating Coating { get; init; }

    /// <summary>Radius of curvature in mm; 0 means flat.</summary>
    public required double CurvatureRadiusMm { get; init; }

    /// <summary>Thickness of the wall in mm.</summary>
    public required double ThicknessMm { get; init; }

    /// <summary>What is directly behind the wall (air, metal, a liquid, ...).</summary>
    public required Material Backing { get; init; }

    /// <summary>Free length in mm (the longer side).</summary>
    public required double LengthMm { get; init; }

    /// <summary>Free width in mm (the shorter side).</summary>
    public required double WidthMm { get; init; }

    /// <summary>Greatest height above the surface in mm.</summary>
    public required double MaxHeightMm { get; init; }

    /// <summary>May holes be drilled?</summary>
    public required bool AllowDrilling { get; init; }

    /// <summary>Kind of surroundings.</summary>
    public required Setting Setting { get; init; }

    /// <summary>Lowest service temperature in °C.</summary>
    public required double TemperatureMinC { get; init; }

    /// <summary>Highest continuous service temperature in °C.</summary>
    public required double TemperatureMaxC { get; init; }

    /// <summary>Highest short peak in °C.</summary>
    public required double PeakTemperatureC { get; init; }

    /// <summary>Temperature at application in °C.</summary>
    public required double ApplicationTemperatureC { get; init; }

    /// <summary>IP codes that must all hold, normalised to "66", "68", "69", ...</summary>
    public required IReadOnlyList<string> IpRequired
    {
        get;
        init
        {
            field = value;
            IpDemand = IpDemand.Of(value);
        }
    }

    /// <summary>Depth of continuous immersion in m.</summary>
    public required double ImmersionM { get; init; }

    /// <summary>Hot high-pressure washing.</summary>
    public required bool PressureWash { get; init; }

    /// <summary>Impact energy in J.</summary>
    public required double ImpactJ { get; init; }

    /// <summary>Abrasion.</summary>
    public required Level Abrasion { get; init; }

    /// <summary>Repeated bending.</summary>
    public required Level Flexing { get; init; }

    /// <summary>Chemical families by id.</summary>
    public required IReadOnlyList<string> Chemicals
    {
        get;
        init
        {
            field = value;
            ChemicalSet = Suitability.Chemicals.SetOf(value);
        }
    }

    /// <summary>Years of full sun.</summary>
    public required double UvYears { get; init; }

    /// <summary>Steam sterilisation cycles.</summary>
    public required int SterilisationCycles { get; init; }

    /// <summary>Laundry cycles.</summary>
    public required int LaundryCycles { get; init; }

    /// <summary>Explosive atmosphere, if any.</summary>
    public HazardousAreaRecord? HazardousArea { get; init; }

    /// <summary>Tamper risk.</summary>
    public required Level TamperRisk { get; init; }

    /// <summary>Food contact.</summary>
    public required bool FoodContact { get; init; }

    /// <summary>A printed code or human-readable number is needed.</summary>
    public required bool NeedsPrint { get; init; }

    /// <summary>Bits of the identity written to the tag.</summary>
    public required int EpcBits { get; init; }

    /// <summary>Bits of further data kept on the tag.</summary>
    public required int UserMemoryBits { get; init; }

    /// <summary>Writing must be guarded by a password.</summary>
    public required bool AccessPassword { get; init; }

    /// <summary>Distance wanted in m.</summary>
    public required double RequiredRangeM { get; init; }

    /// <summary>Probability wanted.</summary>
    public required double RequiredProbability { get; init; }

    /// <summary>Reader, region, site and looks.</summary>
    public required ReadingSituation Reading { get; init; }

    /// <summary>Remaining asset life in years.</summary>
    public required double LifeYears { get; init; }

    /// <summary>Sweeps a year.</summary>
    public required double SweepsPerYear { get; init; }

    /// <summary>ISO 4217 currency.</summary>
    public required string Currency { get; init; }

    /// <summary>Loaded labour rate per hour.</summary>
    public required double LabourRatePerHour { get; init; }

    /// <summary>
    /// What prices in another currency than <see cref="Currency"/> are multiplied with, without unit: the labour rate
    /// divided by the product's own, so that a tag costs as many minutes of labour; 1 in the product's own currency.
    /// </summary>
    public required double PriceFactor { get; init; }

    /// <summary>Minutes per visit.</summary>
    public required double VisitMinutes { get; init; }

    /// <summary>Real annual discount rate.</summary>
    public required double DiscountRate { get; init; }

    /// <summary><see cref="IpRequired"/>, read once.</summary>
    internal IpDemand IpDemand { get; private init; }

    /// <summary><see cref="Chemicals"/> as one set, as <see cref="Suitability.Chemicals.SetOf"/> makes it.</summary>
    internal ulong ChemicalSet { get; private init; }

    /// <summary>Factor on the prices of a class: 1 where they are in the asset's currency already.</summary>
    /// <param name="tagClass">The class.</param>
    public double PriceFactorOf(TagClass tagClass) =>
        PriceFactor == 1 || string.Equals(tagClass.Price.Currency, Currency, StringComparison.Ordinal) ? 1 : PriceFactor;
}
