namespace TagService.Domain.Units;

/// <summary>A temperature in degrees Celsius.</summary>
public readonly record struct Celsius(double Value) : IComparable<Celsius>
{

    /// <summary>Orders by value.</summary>
    public int CompareTo(Celsius other) => Value.CompareTo(other.Value);

    /// <summary>Is the left value smaller?</summary>
    public static bool operator <(Celsius a, Celsius b) => a.Value < b.Value;

    /// <summary>Is the left value larger?</summary>
    public static bool operator >(Celsius a, Celsius b) => a.Value > b.Value;

    /// <summary>Is the left value smaller or equal?</summary>
    public static bool operator <=(Celsius a, Celsius b) => a.Value <= b.Value;

    /// <summary>Is the left value larger or equal?</summary>
    public static bool operator >=(Celsius a, Celsius b) => a.Value >= b.Value;

    /// <summary>Value with its unit, culture-invariant.</summary>
    public override string ToString() => FormattableString.Invariant($"{Value:0.##} °C");
}
