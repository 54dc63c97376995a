namespace TagService.Domain.Units;

/// <summary>A power relative to one milliwatt. Adding two of them has no meaning and does not compile.</summary>
public readonly record struct Dbm(double Value) : IComparable<Dbm>
{
    /// <summary>A power raised by a gain.</summary>
    public static Dbm operator +(Dbm power, Decibels gain) => new(power.Value + gain.Value);

    /// <summary>A power lowered by a loss.</summary>
    public static Dbm operator -(Dbm power, Decibels loss) => new(power.Value - loss.Value);

    /// <summary>Ratio of two powers.</summary>
    public static Decibels operator -(Dbm a, Dbm b) => new(a.Value - b.Value);

    /// <summary>The power in watts: 10^((dBm - 30)/10).</summary>
    public double Watts => Math.Pow(10, (Value - 30) / 10);

    /// <summary>10 log10(W) + 30; <paramref name="watts"/> above 0.</summary>
    public static Dbm FromWatts(double watts) => new((10 * Math.Log10(Guard.Positive(watts))) + 30);

    /// <summary>Orders by value.</summary>
    public int CompareTo(Dbm other) => Value.CompareTo(other.Value);

    /// <summary>Is the left value smaller?</summary>
    public static bool operator <(Dbm a, Dbm b) => a.Value < b.Value;

    /// <summary>Is the left value larger?</summary>
    public static bool operator >(Dbm a, Dbm b) => a.Value > b.Value;

    /// <summary>Is the left value smaller or equal?</summary>
    public static bool operator <=(Dbm a, Dbm b) => a.Value <= b.Value;

    /// <summary>Is the left value larger or equal?</summary>
    public static bool operator >=(Dbm a, Dbm b) => a.Value >= b.Value;

    /// <summary>Value with its unit, culture-invariant.</summary>
    public override string ToString() => FormattableString.Invariant($"{Value:0.##} dBm");
}
