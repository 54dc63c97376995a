namespace TagService.Domain.Units;

/// <summary>A duration in Julian years of 365.25 days.</summary>
public readonly record struct Years(double Value) : IComparable<Years>
{

    /// <summary>Orders by value.</summary>
    public int CompareTo(Years other) => Value.CompareTo(other.Value);

    /// <summary>Is the left value smaller?</summary>
    public static bool operator <(Years a, Years b) => a.Value < b.Value;

    /// <summary>Is the left value larger?</summary>
    public static bool operator >(Years a, Years b) => a.Value > b.Value;

    /// <summary>Is the left value smaller or equal?</summary>
    public static bool operator <=(Years a, Years b) => a.Value <= b.Value;

    /// <summary>Is the left value larger or equal?</summary>
    public static bool operator >=(Years a, Years b) => a.Value >= b.Value;

    /// <summary>Value with its unit, culture-invariant.</summary>
    public override string ToString() => FormattableString.Invariant($"{Value:0.##} a");
}
