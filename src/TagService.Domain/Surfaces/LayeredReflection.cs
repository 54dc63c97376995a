using System.Numerics;
using TagService.Domain.Units;

namespace TagService.Domain.Surfaces;

/// <summary>Plane waves at normal incidence on flat layers.</summary>
public static class LayeredReflection
{
    /// <summary>
    /// Fresnel reflection of the electric field from air onto a half-space: r = (1 - n)/(1 + n), dimensionless.
    /// Exact. Source: ITU-R P.2040-3, eq. 37 at normal incidence (standard optics). Tested by the air-to-water and
    /// air-to-muscle entry losses 1 - |r|^2.
    /// </summary>
    public static Complex HalfSpace(Permittivity medium) => (1 - medium.Index) / (1 + medium.Index);

    /// <summary>
    /// Reflection of a layer of thickness t on a half-space, seen from air: with q = 2 pi f t n1/c,
    /// r = (r01 + r12 e^(-2jq))/(1 + r01 r12 e^(-2jq)). Exact for flat layers.
    /// </summary>
    /// <param name="layer">The layer.</param>
    /// <param name="thicknessMm">Its thickness in mm, 0 or more.</param>
    /// <param name="behind">The half-space behind.</param>
    /// <param name="frequencyMhz">Frequency in MHz, above 0.</param>
    /// <returns>Complex field reflection coefficient. Source: ITU-R P.2040-3, section 2.2.2 (single layer), extended to a half-space behind.</returns>
    public static Complex LayerOnHalfSpace(Permittivity layer, double thicknessMm, Permittivity behind, double frequencyMhz)
    {
        Complex n1 = layer.Index, n2 = behind.Index;
        var r01 = (1 - n1) / (1 + n1);
        var r12 = (n1 - n2) / (n1 + n2);
        var turn = Complex.Exp(new Complex(0, -2) * Electrical(n1, thicknessMm, frequencyMhz));
        return (r01 + (r12 * turn)) / (1 + (r01 * r12 * turn));
    }

    /// <summary>
    /// Loss in dB of a wave through one slab in air: T = (1 - r^2) e^(-jq)/(1 - r^2 e^(-2jq)), loss = -20 log10|T|.
    /// </summary>
    /// <param name="slab">Material of the slab.</param>
    /// <param name="thicknessMm">Thickness in mm, 0 or more.</param>
    /// <param name="frequencyMhz">Frequency in MHz, above 0.</param>
    /// <returns>Loss in dB, 0 or more. Exact. Source: ITU-R P.2040-3, section 2.2.2. Tested against the 0.9 GHz rows for concrete, brick, plasterboard, wood, glass and chipboard.</returns>
    public static double SlabLossDb(Permittivity slab, double thicknessMm, double frequencyMhz)
    {
        var r = HalfSpace(slab);
        var q = Electrical(slab.Index, Guard.NotNegative(thicknessMm), Guard.Positive(frequencyMhz));
        var through = (1 - (r * r)) * Complex.Exp(new Complex(0, -1) * q) / (1 - (r * r * Complex.Exp(new Complex(0, -2) * q)));
        return -20 * Math.Log10(Complex.Abs(through));
    }

    private static Complex Electrical(Complex index, double thicknessMm, double frequencyMhz) =>
        2 * Math.PI * frequencyMhz * 1e6 / Megahertz.SpeedOfLight * (thicknessMm / 1000) * index;
}
