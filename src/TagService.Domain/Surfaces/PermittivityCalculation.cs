using TagService.Domain.Units;

namespace TagService.Domain.Surfaces;

/// <summary>Evaluates a material's <see cref="PermittivityModel"/> at a frequency.</summary>
public static class PermittivityCalculation
{
    /// <summary>Lowest and highest frequency in MHz the models are asked for.</summary>
    public const double LowestMhz = 1, HighestMhz = 100_000;

    /// <summary>Complex relative permittivity of a model.</summary>
    /// <param name="model">Formula and its figures.</param>
    /// <param name="frequencyMhz">Frequency in MHz, 1 to 100 000 (1 GHz limits of ITU-R P.2040 are indicative except for ground).</param>
    /// <returns>eps' and eps'', dimensionless.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Frequency outside the range.</exception>
    /// <exception cref="ArgumentException">The row's members do not fit its formula: an error of the data file.</exception>
    public static Permittivity Evaluate(PermittivityModel model, double frequencyMhz)
    {
        ArgumentNullException.ThrowIfNull(model);
        Guard.InRange(frequencyMhz, LowestMhz, HighestMhz);
        return model.Model switch
        {
            PermittivityFormula.Constant => new(model.RelativePermittivity, model.RelativePermittivity * model.LossTangent),
            PermittivityFormula.ItuP2040 => ItuPermittivity.Evaluate(FourCoefficients(model), frequencyMhz),
            PermittivityFormula.Water => WaterPermittivity.Evaluate(25, frequencyMhz),
            PermittivityFormula.ColeCole4 => TissuePermittivity.Evaluate(TissuePermittivity.Named(model.Tissue), frequencyMhz),
            _ => throw new ArgumentException($"Unknown permittivity formula {model.Model}.", nameof(model)),
        };
    }

    /// <summary>
    /// Permittivity of a material for the radio calculation: its model where it has one; air and textile without a
    /// model count as air; a liquid or tissue without a model counts as water or muscle; a dielectric without a
    /// model counts as eps' 2.5, tan d 0.01 (middle of common plastics, planning value). Metals have none: 1.
    /// </summary>
    public static Permittivity Of(Material material, double frequencyMhz)
    {
        ArgumentNullException.ThrowIfNull(material);
        if (material.Permittivity is { } model)
            return Evaluate(model, frequencyMhz);
        return material.Kind switch
        {
            MaterialKind.Liquid => WaterPermittivity.Evaluate(25, frequencyMhz),
            MaterialKind.Tissue => TissuePermittivity.Evaluate(TissuePermittivity.Muscle, frequencyMhz),
            MaterialKind.Dielectric => new(2.5, 0.025),
            _ => Permittivity.Air,
        };
    }

    private static IReadOnlyList<double> FourCoefficients(PermittivityModel model) =>
        model.Coefficients is { Count: 4 } c
            ? c
            : throw new ArgumentException("An ITU-R P.2040 row needs the four coefficients a, b, c, d.", nameof(model));
}
