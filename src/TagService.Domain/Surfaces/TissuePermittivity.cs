using System.Numerics;
using TagService.Domain.Units;

namespace TagService.Domain.Surfaces;

/// <summary>Living tissue by the four-pole Cole-Cole fits of Gabriel, Lau and Gabriel (1996).</summary>
public static class TissuePermittivity
{
    /// <summary>Skeletal muscle, 37 °C.</summary>
    public static ColeColeTissue Muscle { get; } = new("muscle", 4, 0.2,
    [
        new(50, 7.234e-12, 0.1), new(7000, 353.678e-9, 0.1), new(1.2e6, 318.31e-6, 0.1), new(2.5e7, 2.274e-3, 0),
    ]);

    /// <summary>Dry skin, 37 °C.</summary>
    public static ColeColeTissue DrySkin { get; } = new("dry-skin", 4, 0.0002,
        [new(32, 7.234e-12, 0), new(1100, 32.481e-9, 0.2)]);

    /// <summary>Fat (not infiltrated), 37 °C.</summary>
    public static ColeColeTissue Fat { get; } = new("fat", 2.5, 0.01,
    [
        new(3, 7.958e-12, 0.2), new(15, 15.915e-9, 0.1), new(3.3e4, 159.155e-6, 0.05), new(1e7, 7.958e-3, 0.01),
    ]);

    /// <summary>All parameter sets.</summary>
    public static IReadOnlyList<ColeColeTissue> All { get; } = [Muscle, DrySkin, Fat];

    /// <summary>The set of this name; a material without a name counts as muscle.</summary>
    /// <exception cref="ArgumentException">No such set: an error of the data file.</exception>
    public static ColeColeTissue Named(string? name) =>
        name is null
            ? Muscle
            : All.FirstOrDefault(t => t.Name == name)
                ?? throw new ArgumentException($"No tissue {name}; known: {string.Join(", ", All.Select(t => t.Name))}.", nameof(name));

    /// <summary>
    /// eps = eps_inf + sum d_n/(1 + (j w tau_n)^(1 - alpha_n)) + sigma/(j w eps0).
    /// </summary>
    /// <param name="tissue">Parameters.</param>
    /// <param name="frequencyMhz">Frequency in MHz, 1 to 100 000.</param>
    /// <returns>
    /// Permittivity. The fits carry the spread of tissue itself, about 5-10 % (authors' estimate, from memory).
    /// Source: C. Gabriel, "Compilation of the dielectric properties of body tissues at RF and microwave
    /// frequencies", 1996, Appendix C (secondary: parameters as published by IFAC). Tested at 866.5, 900 and 915 MHz.
    /// </returns>
    public static Permittivity Evaluate(ColeColeTissue tissue, double frequencyMhz)
    {
        ArgumentNullException.ThrowIfNull(tissue);
        Guard.InRange(frequencyMhz, PermittivityCalculation.LowestMhz, PermittivityCalculation.HighestMhz);
        var omega = 2 * Math.PI * frequencyMhz * 1e6;
        Complex eps = tissue.Infinite;
        foreach (var (step, tauSeconds, alpha) in tissue.Poles)
            eps += step / (1 + Complex.Pow(new Complex(0, omega * tauSeconds), 1 - alpha));
        eps += tissue.IonicSPerM / new Complex(0, omega * Permittivity.VacuumFaradPerMetre);
        return new(eps.Real, -eps.Imaginary);
    }
}
