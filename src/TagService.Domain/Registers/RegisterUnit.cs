namespace TagService.Domain.Registers;

/// <summary>A unit that registers use.</summary>
public sealed record RegisterUnit
{
    /// <summary>Its id, as a mapping names it.</summary>
    public required string Id { get; init; }

    /// <summary>What it measures.</summary>
    public required UnitDimension Dimension { get; init; }

    /// <summary>Symbols and words for it, several languages.</summary>
    public required IReadOnlyList<string> Names { get; init; }

    /// <summary>Added to the value first, in this unit.</summary>
    public required decimal Offset { get; init; }

    /// <summary>Then multiplied.</summary>
    public required decimal Numerator { get; init; }

    /// <summary>Then divided; above 0.</summary>
    public required decimal Denominator { get; init; }

    /// <summary>Where the figures come from.</summary>
    public required string Source { get; init; }

    /// <summary>
    /// Converts a value of this unit: base = (value + offset) x numerator / denominator, then the inverse for
    /// <paramref name="target"/>. Decimal arithmetic: exact where the factors are (1 in = 25.4 mm), else to 27 digits; tested in
    /// RegisterUnitsTests against NIST SP 811 (2008).
    /// </summary>
    /// <param name="value">In this unit, any decimal.</param>
    /// <param name="target">A unit of the same dimension.</param>
    /// <returns>The value in <paramref name="target"/>; null when it leaves the range of decimal (7.9e28).</returns>
    /// <exception cref="ArgumentException">The dimensions differ.</exception>
    public decimal? Convert(decimal value, RegisterUnit target)
    {
        if (target.Dimension != Dimension)
            throw new ArgumentException($"{Id} measures {Dimension}, {target.Id} measures {target.Dimension}.", nameof(target));
        if (ReferenceEquals(this, target))
            return value;
        try
        {
            var inBase = (value + Offset) * Numerator / Denominator;
            return (inBase * target.Denominator / target.Numerator) - target.Offset;
        }
        catch (OverflowException)
        {
            return null;
        }
    }
}
