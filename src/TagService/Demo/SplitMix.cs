namespace TagService.Demo;

/// <summary>
/// SplitMix64 (Steele, Lea, Flood 2014, "Fast Splittable Pseudorandom Number Generators"): the same numbers from the same
/// seed for ever, which System.Random does not promise between versions.
/// </summary>
internal sealed class SplitMix(ulong seed)
{
    private ulong _state = seed;

    public ulong Next()
    {
        unchecked
        {
            var z = _state += 0x9E3779B97F4A7C15;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return z ^ (z >> 31);
        }
    }

    /// <summary>A fraction from 0 to below 1.</summary>
    public double Fraction() => (Next() >> 11) * (1.0 / (1UL << 53));

    /// <summary>True with this probability.</summary>
    public bool Chance(double probability) => Fraction() < probability;

    /// <summary>A whole number from 0 to below the bound.</summary>
    public int Below(int bound) => (int)(Fraction() * bound);

    /// <summary>One of the list.</summary>
    public T Pick<T>(IReadOnlyList<T> list) => list[Below(list.Count)];
}
