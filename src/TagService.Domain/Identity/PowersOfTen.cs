namespace TagService.Domain.Identity;

/// <summary>Powers of ten and digit counts without floating point: keys are decimal numbers of up to 38 digits.</summary>
internal static class PowersOfTen
{
    /// <summary>Most digits that always fit an unsigned 128-bit number: 10^38 &lt; 2^128.</summary>
    public const int MaxDigits = 38;

    private static readonly UInt128[] Powers = Build();

    /// <summary>10^exponent, exponent 0 to 38.</summary>
    public static UInt128 Of(int exponent) => Powers[exponent];

    /// <summary>10^exponent, exponent 0 to 19.</summary>
    public static ulong Of64(int exponent) => unchecked((ulong)Powers[exponent]);

    /// <summary>Decimal digits of the number without leading zeros; 1 for zero.</summary>
    public static int Digits(ulong value)
    {
        // log10(2) = 1233/4096 to within the width of 64 bits; one comparison settles the boundary.
        var guess = (64 - System.Numerics.BitOperations.LeadingZeroCount(value | 1)) * 1233 >> 12;
        return guess + (value >= Of64(guess) || guess == 0 ? 1 : 0);
    }

    /// <summary>Bits that hold every number of so many digits: ceil(digits x log2 10), TDS 2.3 section 14.5.6.1.</summary>
    public static int Bits(int digits) => 128 - (int)UInt128.LeadingZeroCount(Powers[digits] - 1);

    private static UInt128[] Build()
    {
        var powers = new UInt128[MaxDigits + 1];
        powers[0] = 1;
        for (var i = 1; i < powers.Length; i++)
            powers[i] = powers[i - 1] * 10;
        return powers;
    }
}
