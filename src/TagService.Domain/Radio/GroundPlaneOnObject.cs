using TagService.Domain.TagClasses;

namespace TagService.Domain.Radio;

/// <summary>A class with its own ground plane on any surface.</summary>
internal static class GroundPlaneOnObject
{
    /// <summary>
    /// Gain = reference - penalty (1 - c): c is how much of the reference plate the class has behind it, 1 on it, 0 away from metal.
    /// c = u exp(-s/20 mm) on metal, u = min(1, sqrt(L W)/reference side), s the spacing; a liquid or tissue counts by the power
    /// it reflects, |r|^2. Linear in the plate's side, so continuous down to no plate. Source: common practice (planning value): off
    /// metal the class loses its penalty, small plates cost part of it; published on-metal prototypes on 120-400 mm plates differ by
    /// a few dB. Tested by orderings.
    /// </summary>
    public static GainOnObject Gain(TagAntenna antenna, SurfaceElectrics at, double spacingMm)
    {
        var plate = antenna.ReferencePlateMm > 0 ? Math.Min(1, at.PlateMm / antenna.ReferencePlateMm) : 1;
        double coupling = 0;
        if (at.MetalBehindMm is { } metal)
        {
            coupling = plate * Near(spacingMm + metal);
        }
        else if (at.WetBehindMm is { } wet)
        {
            var r = System.Numerics.Complex.Abs(at.Reflection);
            coupling = r * r * plate * Near(spacingMm + wet);
        }

        return new()
        {
            ReferenceDbi = antenna.ReferenceGainDbi,
            GroundPlaneDb = -antenna.OffMetalPenaltyDb * (1 - coupling),
            HeightOverMetalMm = at.MetalBehindMm is { } depth ? spacingMm + depth : 0,
            EffectivePermittivity = 1,
        };
    }

    private static double Near(double spacingMm) => Math.Exp(-spacingMm / PlanningValues.GroundCouplingMm);
}
