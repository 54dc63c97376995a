using System.Numerics;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Radio;

/// <summary>A dipole-like class (tuned for dielectrics, with or without built-in foam) on any surface.</summary>
internal static class DipoleOnObject
{
    /// <summary>
    /// Effects on the reference gain. Formulas: <see cref="EffectivePermittivity"/>, <see cref="DetuningDb"/>,
    /// the dissipation 1 + Q tan d of the effective permittivity, <see cref="MetalDb"/>, <see cref="HalfSpaceDb"/>. The reference surface (thin cardboard) is 0 dB.
    /// Accuracy: +-5 dB (two sigma) against published material measurements; tested by their orderings and the evidence rows.
    /// </summary>
    public static GainOnObject Gain(TagAntenna antenna, SurfaceElectrics at, double spacingMm)
    {
        var bandwidth = antenna.BandwidthMhz > 0 ? antenna.BandwidthMhz : PlanningValues.DefaultBandwidthMhz;
        var height = Math.Max(antenna.StandoffMm + spacingMm, PlanningValues.AdhesiveMm);
        var loading = EffectivePermittivity(at.Wall, at.Behind, height, at.WallMm);
        var dissipation = 1 + (AntennaQ(bandwidth, at.FrequencyMhz) * (-loading.Imaginary / loading.Real));
        double image = 0, reactance = 0, half = 0, metalHeight = 0;
        if (at.MetalBehindMm is { } depth)
        {
            metalHeight = height + depth;
            (image, reactance) = MetalDb(metalHeight / at.WavelengthMm, bandwidth);
        }
        else if (at.WetBehindMm is not null)
        {
            half = HalfSpaceDb(at.Reflection, height / at.WavelengthMm);
        }

        return new()
        {
            ReferenceDbi = antenna.ReferenceGainDbi,
            DetuningDb = DetuningDb(loading.Real, at.FrequencyMhz, bandwidth * (1 + dissipation) / 2),
            DissipationDb = -10 * Math.Log10(dissipation),
            ImageDb = image,
            ReactanceDb = reactance,
            HalfSpaceDb = half,
            HeightOverMetalMm = metalHeight,
            EffectivePermittivity = loading.Real,
        };
    }

    /// <summary>
    /// Quasi-static loading of a strip by layers: eps_eff = 1/(1 - K), K = K1 g(h) + (K2 - K1) g(h + t), with image coefficients
    /// K = (eps - 1)/(eps + 1) and g(z) = exp(-z/d), d the depth of the near field. At h = 0 on a half-space it is the
    /// textbook (eps + 1)/2; complex, so that its argument carries the loss. Source: image theory of a strip (standard), decay
    /// length a planning value. Tested against the half-space limits of the evidence.
    /// </summary>
    public static Complex EffectivePermittivity(Complex wall, Complex behind, double heightMm, double wallMm)
    {
        var near = Math.Exp(-heightMm / PlanningValues.NearFieldDepthMm);
        var far = near * Math.Exp(-wallMm / PlanningValues.NearFieldDepthMm);
        return 1 / (1 - ((wall * near) + ((behind - wall) * far)));
    }

    /// <summary>
    /// Detuning: resonance falls as 1/sqrt(eps_eff) from where the class is tuned; loss of a single resonance
    /// 1 + x^2, x = 2 df/B, flattened to the largest loss published: 1 + x^2/(1 + x^2/19.5). dB, 0 or below.
    /// </summary>
    public static double DetuningDb(double effectivePermittivity, double frequencyMhz, double bandwidthMhz)
    {
        if (effectivePermittivity <= PlanningValues.TunedPermittivity)
            return 0;
        var shift = frequencyMhz * (1 - Math.Sqrt(PlanningValues.TunedPermittivity / effectivePermittivity));
        var x2 = 4 * shift * shift / (bandwidthMhz * bandwidthMhz);
        return -10 * Math.Log10(1 + (x2 / (1 + (x2 / PlanningValues.DetuningCeiling))));
    }

    /// <summary>
    /// Metal at h below the antenna: the image model with fixed chip resistance (<see cref="ImageDipole.RelativeGainDb"/>), and the
    /// loss by the reactance that the image adds. That reactance is X21(2h) of the half-wave dipole, +42.5 ohm on contact, here its
    /// upper envelope 42.5 exp(-17 h/lambda), times the class's stored energy over the half-wave dipole's (200 MHz/B).
    /// Above lambda/4 the effect fades to none at lambda/2, where the phase differs from asset to asset (planning value).
    /// </summary>
    public static (double ImageDb, double ReactanceDb) MetalDb(double heightWavelengths, double bandwidthMhz)
    {
        if (heightWavelengths >= 0.5)
            return (0, 0);
        var fade = heightWavelengths <= 0.25 ? 1 : 2 - (4 * heightWavelengths);
        var h = Math.Min(heightWavelengths, 0.25);
        var stored = Math.Max(1, PlanningValues.HalfWaveBandwidthMhz / bandwidthMhz);
        var reactance = stored * ImageDipole.FreeReactanceOhm * Math.Exp(-17 * h);
        var (tuned, detuned) = ImageDipole.RelativeGainsDb(h, reactance);
        return (fade * tuned, fade * (detuned - tuned));
    }

    /// <summary>
    /// Liquid or tissue: the field at the antenna is 1 + r exp(-2jkh) of the incident one, r the reflection of wall and
    /// half-space. Never a gain (planning choice). dB, 0 or below.
    /// </summary>
    public static double HalfSpaceDb(Complex reflection, double heightWavelengths)
    {
        var total = 1 + (reflection * Complex.Exp(new Complex(0, -4 * Math.PI * heightWavelengths)));
        return Math.Min(0, 20 * Math.Log10(Complex.Abs(total)));
    }

    /// <summary>
    /// Quality factor of the antenna by itself: 2 f/B, as a matched chip halves it, but no more than about a chip's own Q, which a
    /// conjugate match copies (8.6 for the published chip impedance 14.8 - j127.1 ohm at 921 MHz); 10 as a planning value.
    /// </summary>
    private static double AntennaQ(double bandwidthMhz, double frequencyMhz) => Math.Min(10, 2 * frequencyMhz / bandwidthMhz);
}
