using System.ComponentModel.DataAnnotations;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;

namespace TagService.Domain.TagClasses;

/// <summary>What a construction bears, apart from its fixing (adhesive limits stand with the attachment method).</summary>
public sealed record TagLimits
{
    /// <summary>Lowest service temperature in °C.</summary>
    [Range(-273, 400)]
    public required double TemperatureMinC { get; init; }

    /// <summary>Highest continuous service temperature in °C.</summary>
    [Range(-273, 1000)]
    public required double TemperatureMaxC { get; init; }

    /// <summary>Highest short peak (about ten minutes) in °C.</summary>
    [Range(-273, 2000)]
    public required double PeakTemperatureC { get; init; }

    /// <summary>IP codes held, as a set: IP68 does not imply IP66 (IEC 60529). Empty: unprotected.</summary>
    [MaxLength(8)]
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
    [Range(0, 11_000)]
    public double ImmersionM { get; init; }

    /// <summary>Bears hot high-pressure washing.</summary>
    public bool PressureWash { get; init; }

    /// <summary>Impact energy borne in J (IEC 62262 levels); 0 if none is stated.</summary>
    [Range(0, 1000)]
    public double ImpactJ { get; init; }

    /// <summary>Abrasion borne.</summary>
    public required Level Abrasion { get; init; }

    /// <summary>Repeated flexing borne.</summary>
    public required Level Flexing { get; init; }

    /// <summary>Years of full outdoor sun borne.</summary>
    [Range(0, 100)]
    public required double UvYears { get; init; }

    /// <summary>Steam sterilisation cycles borne.</summary>
    [Range(0, 1_000_000)]
    public int SterilisationCycles { get; init; }

    /// <summary>Industrial laundry cycles borne.</summary>
    [Range(0, 1_000_000)]
    public int LaundryCycles { get; init; }

    /// <summary>Smallest bend radius in mm; absent for rigid constructions.</summary>
    [Range(0, 10_000)]
    public double? MinBendRadiusMm { get; init; }

    /// <summary>Outer material, a key of the chemical compatibility table.</summary>
    [MaxLength(60)]
    public required string FaceMaterial
    {
        get;
        init
        {
            field = value;
            FaceContacts = Chemicals.ContactsOf(value);
        }
    }

    /// <summary>Suitable where it may touch food.</summary>
    public bool FoodContact { get; init; }

    /// <summary>Resistance against people who pick at it or pry it off.</summary>
    public required Level TamperResistance { get; init; }

    /// <summary>Carries a printed code and a human-readable number.</summary>
    public required bool Printable { get; init; }

    /// <summary><see cref="IpCodes"/>, read once: the water rules run for every class.</summary>
    internal IpSet Ip { get; private init; }

    /// <summary>What the compatibility table says of <see cref="FaceMaterial"/>, looked up once.</summary>
    internal MaterialContacts FaceContacts { get; private init; } = MaterialContacts.None;
}
