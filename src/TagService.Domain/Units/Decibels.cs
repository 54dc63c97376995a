namespace TagService.Domain.Units;

/// <summary>A ratio of powers, or a gain over the isotropic radiator (dBi), in decibels.</summary>
public readonly record struct Decibels(double Value) : IComparable<Decibels>
{
    /// <summary>Sum of two ratios.</summary>
    public static Decibels operator +(Decibels a, Decibels b) => new(a.Value + b.Value);

    /// <summary>Difference of two ratios.</summary>
    public static Decibels operator -(Decibels a, Decibels b) => new(a.Value - b.Value);

    /// <summary>The inverse ratio.</summary>
    public static Decibels operator -(Decibels a) => new(-a.Value);

    /// <summary>The ratio as a plain number: 10^(dB/10).</summary>
    public double Linear => Math.Pow(10, Value / 10);

    /// <summary>10 log10 of a power ratio; <paramref name="ratio"/> above 0.</summary>
    public static Decibels FromRatio(double ratio) => new(10 * Math.Log10(Guard.Positive(ratio)));

    /// <summary>Orders by value.</summary>
    public int CompareTo(Decibels other) => Value.CompareTo(other.Value);

    /// <summary>Is the left value smaller?</summary>
    public static bool operator <(Decibels a, Decibels b) => a.Value < b.Value;

    /// <summary>Is the left value larger?</summary>
    public static bool operator >(Decibels a, Decibels b) => a.Value > b.Value;

    /// <summary>Is the left value smaller or equal?</summary>
    public static bool operator <=(Decibels a, Decibels b) => a.Value <= b.Value;

    /// <summary>Is the left value larger or equal?</summary>
    public static bool operator >=(Decibels a, Decibels b) => a.Value >= b.Value;

    /// <summary>Value with its unit, culture-invariant.</summary>
    public override string ToString() => FormattableString.Invariant($"{Value:0.##} dB");
}
