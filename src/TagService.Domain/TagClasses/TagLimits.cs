using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;

namespace TagService.Domain.TagClasses;

/// <summary>What a construction bears, apart from its fixing (adhesive limits stand with the attachment method).</summary>
public sealed record TagLimits
{
    /// <summary>Lowest service temperature in °C.</summary>
    public required double TemperatureMinC { get; init; }

    /// <summary>Highest continuous service temperature in °C.</summary>
    public required double TemperatureMaxC { get; init; }

    /// <summary>Highest short peak (about ten minutes) in °C.</summary>
    public required double PeakTemperatureC { get; init; }

    /// <summary>IP codes held, as a set: IP68 does not imply IP66 (IEC 60529). Empty: unprotected.</summary>
    public required IReadOnlyList<string> IpCodes
    {
        get;
        init
        {
            field = value;
            Ip = IpSet.Of(value);
        }
    }

    /// <summary>Depth in m for continuous immersion; 0 if none.</summary>
    public double ImmersionM { get; init; }

    /// <summary>Bears hot high-pressure washing.</summary>
    public bool PressureWash { get; init; }

    /// <summary>Impact energy borne in J (IEC 62262 levels); 0 if none is stated.</summary>
    public double ImpactJ { get; init; }

    /// <summary>Abrasion borne.</summary>
    public required Level Abrasion { get; init; }

    /// <summary>Repeated flexing borne.</summary>
    public required Level Flexing { get; init; }

    /// <summary>Years of full outdoor sun borne.</summary>
    public required double UvYears { get; init; }

    /// <summary>Steam sterilisation cycles borne.</summary>
    public int SterilisationCycles { get; init; }

    /// <summary>Industrial laundry cycles borne.</summary>
    public int LaundryCycles { get; init; }

    /// <summary>Smallest bend radius in mm; absent for rigid constructions.</summary>
    public double? MinBendRadiusMm { get; init; }

    /// <summary>Outer material, a key of the chemical compatibility table.</summary>
    public required string FaceMaterial { get; init; }

    /// <summary>Suitable where it may touch food.</summary>
    public bool FoodContact { get; init; }

    /// <summary>Resistance against people who pick at it or pry it off.</summary>
    public required Level TamperResistance { get; init; }

    /// <summary>Carries a printed code and a human-readable number.</summary>
    public required bool Printable { get; init; }

    /// <summary><see cref="IpCodes"/>, read once: the water rules run for every class.</summary>
    internal IpSet Ip { get; private init; }
}
