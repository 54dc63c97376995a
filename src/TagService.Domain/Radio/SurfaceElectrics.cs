using System.Numerics;
using TagService.Domain.Surfaces;
using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>A mounted surface at one frequency: what is the same for every class and spacing, computed once.</summary>
internal sealed class SurfaceElectrics
{
    public SurfaceElectrics(MountedSurface surface, double frequencyMhz)
    {
        FrequencyMhz = frequencyMhz;
        WavelengthMm = new Megahertz(frequencyMhz).Wavelength.Millimetres;
        PlateMm = Math.Sqrt(Guard.Positive(surface.LengthMm) * Guard.Positive(surface.WidthMm));
        Guard.NotNegative(surface.ThicknessMm);
        if (surface.Material.Kind == MaterialKind.Metal)
        {
            MetalBehindMm = 0;
            return;
        }

        var wall = PermittivityCalculation.Of(surface.Material, frequencyMhz);
        Wall = Image(wall);
        if (IsWet(surface.Material))
        {
            Reflection = LayeredReflection.HalfSpace(wall);
            Behind = Wall;
            WetBehindMm = 0;
            return;
        }

        WallMm = surface.ThicknessMm;
        if (surface.Backing.Kind == MaterialKind.Metal)
        {
            // The metal itself is the image model's; for the wall's own loading what follows counts as air.
            MetalBehindMm = WallMm;
            return;
        }

        var behind = PermittivityCalculation.Of(surface.Backing, frequencyMhz);
        Behind = Image(behind);
        if (IsWet(surface.Backing))
        {
            Reflection = LayeredReflection.LayerOnHalfSpace(wall, WallMm, behind, frequencyMhz);
            WetBehindMm = WallMm;
        }
    }

    public double FrequencyMhz { get; }

    public double WavelengthMm { get; }

    /// <summary>Side of the square of the same area as the free surface.</summary>
    public double PlateMm { get; }

    /// <summary>Depth of metal below the surface in mm; absent where there is none.</summary>
    public double? MetalBehindMm { get; }

    /// <summary>Depth of a liquid or tissue below the surface in mm; absent where there is none.</summary>
    public double? WetBehindMm { get; }

    public double WallMm { get; }

    /// <summary>Image coefficient (eps - 1)/(eps + 1) of the wall and of what is behind it.</summary>
    public Complex Wall { get; }

    public Complex Behind { get; }

    /// <summary>Plane-wave reflection of wall and liquid, seen at the surface.</summary>
    public Complex Reflection { get; }

    private static bool IsWet(Material m) => m.Kind is MaterialKind.Liquid or MaterialKind.Tissue;

    private static Complex Image(Permittivity p)
    {
        var eps = new Complex(p.Real, -p.Loss);
        return (eps - 1) / (eps + 1);
    }
}
