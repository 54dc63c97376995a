using TagService.Domain.Surfaces;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Radio;

/// <summary>An HF coil on any surface: water and tissue do nothing at 13.56 MHz, metal cancels the field at its surface.</summary>
internal readonly record struct HfOnObject(double AreaDb, double MetalDb, double HeightOverMetalMm)
{
    /// <summary>
    /// Losses of field in dB (negative). Coil area: induced voltage goes with area, so a smaller coil needs the card's threshold times
    /// card area/area. Metal at depth h behind an unshielded coil: the reader coil's image, seen from the tag at the working distance
    /// of one coil radius R, cancels all but 1 - H(R + 2h)/H(R) of the field, and the tag is detuned; a ferrite sheet gives the flux a
    /// way round and costs a fixed planning loss.
    /// </summary>
    public static HfOnObject Of(TagAntenna antenna, MountedSurface surface, double coilRadiusM) =>
        Of(antenna, surface, surface.AddedStandoffMm, coilRadiusM);

    /// <summary>The same with another spacing under the tag than the surface's own.</summary>
    public static HfOnObject Of(TagAntenna antenna, MountedSurface surface, double spacingMm, double coilRadiusM)
    {
        var area = antenna.CoilAreaMm2 > 0
            ? 20 * Math.Log10(Math.Min(1, antenna.CoilAreaMm2 / PlanningValues.CardCoilAreaMm2))
            : 0;
        var depth = surface.Material.Kind == MaterialKind.Metal ? 0
            : surface.Backing.Kind == MaterialKind.Metal ? surface.ThicknessMm
            : double.NaN;
        if (double.IsNaN(depth))
            return new(area, 0, 0);
        var height = depth + Math.Max(antenna.StandoffMm + spacingMm, PlanningValues.AdhesiveMm);
        var ratio = 1 + (2 * height / 1000 / coilRadiusM);
        // H(R + 2h)/H(R) = (2/(1 + (1 + 2h/R)^2))^(3/2)
        var left = 1 - Math.Pow(2 / (1 + (ratio * ratio)), 1.5);
        var cancelled = 20 * Math.Log10(left);
        // Far from the metal neither the field nor the tuning is changed: both fade together.
        var metal = cancelled - (PlanningValues.HfMetalDetuningDb * (1 - left));
        return new(area, antenna.Kind == AntennaKind.HfFerriteLoop ? Math.Max(metal, -PlanningValues.FerriteOnMetalDb) : metal, height);
    }
}
