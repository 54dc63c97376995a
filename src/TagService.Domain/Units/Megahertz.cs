namespace TagService.Domain.Units;

/// <summary>A frequency in megahertz.</summary>
public readonly record struct Megahertz(double Value) : IComparable<Megahertz>
{
    /// <summary>Speed of light in vacuum, m/s (exact, SI).</summary>
    public const double SpeedOfLight = 299_792_458;

    /// <summary>Free-space wavelength c/f in metres.</summary>
    public Metres Wavelength => new(SpeedOfLight / (Value * 1e6));

    /// <summary>Orders by value.</summary>
    public int CompareTo(Megahertz other) => Value.CompareTo(other.Value);

    /// <summary>Is the left value smaller?</summary>
    public static bool operator <(Megahertz a, Megahertz b) => a.Value < b.Value;

    /// <summary>Is the left value larger?</summary>
    public static bool operator >(Megahertz a, Megahertz b) => a.Value > b.Value;

    /// <summary>Is the left value smaller or equal?</summary>
    public static bool operator <=(Megahertz a, Megahertz b) => a.Value <= b.Value;

    /// <summary>Is the left value larger or equal?</summary>
    public static bool operator >=(Megahertz a, Megahertz b) => a.Value >= b.Value;

    /// <summary>Value with its unit, culture-invariant.</summary>
    public override string ToString() => FormattableString.Invariant($"{Value:0.##} MHz");
}
