using TagService.Domain.Units;

namespace TagService.Domain.Suitability.Rules;

/// <summary>Geometry of a flat tag on a round surface.</summary>
internal static class Curvature
{
    /// <summary>
    /// Smallest radius of a cylinder on which a rigid plate, tangent along its middle, stands off no more than a gap at
    /// its edges: R = w^2 / (8 g) + g / 2, from the sagitta g = R - sqrt(R^2 - (w / 2)^2). Exact for g up to w / 2;
    /// wider gaps need no radius beyond that of g = w / 2.
    /// </summary>
    /// <param name="widthMm">Width w across the axis, above 0 mm.</param>
    /// <param name="gapMm">Gap g that the bond line or saddle bridges, at least 0 mm.</param>
    /// <returns>Radius in mm; infinite for no gap at all. Accuracy: floating point.</returns>
    /// <remarks>Source: sagitta of a circular arc, any handbook of geometry. Tested in CurvatureTests.</remarks>
    public static double SmallestRadiusMm(double widthMm, double gapMm)
    {
        Guard.Positive(widthMm);
        Guard.NotNegative(gapMm);
        var gap = Math.Min(gapMm, widthMm / 2);
        return (widthMm * widthMm / (8 * gap)) + (gap / 2);
    }
}
