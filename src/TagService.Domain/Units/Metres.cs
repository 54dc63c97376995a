namespace TagService.Domain.Units;

/// <summary>A length or distance in metres.</summary>
public readonly record struct Metres(double Value) : IComparable<Metres>
{
    /// <summary>The length in millimetres.</summary>
    public double Millimetres => Value * 1000;

    /// <summary>From millimetres.</summary>
    public static Metres FromMillimetres(double millimetres) => new(millimetres / 1000);

    /// <summary>Orders by value.</summary>
    public int CompareTo(Metres other) => Value.CompareTo(other.Value);

    /// <summary>Is the left value smaller?</summary>
    public static bool operator <(Metres a, Metres b) => a.Value < b.Value;

    /// <summary>Is the left value larger?</summary>
    public static bool operator >(Metres a, Metres b) => a.Value > b.Value;

    /// <summary>Is the left value smaller or equal?</summary>
    public static bool operator <=(Metres a, Metres b) => a.Value <= b.Value;

    /// <summary>Is the left value larger or equal?</summary>
    public static bool operator >=(Metres a, Metres b) => a.Value >= b.Value;

    /// <summary>Value with its unit, culture-invariant.</summary>
    public override string ToString() => FormattableString.Invariant($"{Value:0.##} m");
}
