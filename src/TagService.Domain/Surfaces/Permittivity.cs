using System.Numerics;

namespace TagService.Domain.Surfaces;

/// <summary>Complex relative permittivity eps' - j eps'' at one frequency (time convention exp(+j omega t)).</summary>
/// <param name="Real">eps', at least 1.</param>
/// <param name="Loss">eps'', at least 0: what turns field energy into heat.</param>
public readonly record struct Permittivity(double Real, double Loss)
{
    /// <summary>Electric constant in F/m (CODATA 2018).</summary>
    public const double VacuumFaradPerMetre = 8.8541878128e-12;

    /// <summary>Vacuum and, for tags, air and foam.</summary>
    public static Permittivity Air { get; } = new(1, 0);

    /// <summary>Loss tangent eps''/eps', dimensionless.</summary>
    public double LossTangent => Loss / Real;

    /// <summary>Complex index n = sqrt(eps' - j eps''), Re n > 0 and Im n &lt;= 0.</summary>
    public Complex Index => Complex.Sqrt(new Complex(Real, -Loss));

    /// <summary>
    /// Equivalent conductivity sigma = 2 pi f eps0 eps'' in S/m; <paramref name="frequencyMhz"/> above 0.
    /// Definition (for example ITU-R P.2040-3, section 2.1.4). Tested against IFAC muscle and skin values.
    /// </summary>
    public double ConductivitySPerM(double frequencyMhz) =>
        2 * Math.PI * frequencyMhz * 1e6 * VacuumFaradPerMetre * Loss;

    /// <summary>
    /// Attenuation of a plane wave in dB per metre: 20 log10(e) (2 pi f/c) |Im n|; exact for a homogeneous medium.
    /// Tested against the computed reference rows for concrete, wood, glass, muscle and water.
    /// </summary>
    public double AttenuationDbPerM(double frequencyMhz) =>
        20 * Math.Log10(Math.E) * 2 * Math.PI * frequencyMhz * 1e6 / Units.Megahertz.SpeedOfLight * -Index.Imaginary;
}
