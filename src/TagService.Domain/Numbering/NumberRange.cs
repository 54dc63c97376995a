using System.Globalization;

namespace TagService.Domain.Numbering;

/// <summary>The numbers that a rule hands out, from first to last.</summary>
/// <param name="Rule">The rule.</param>
/// <param name="First">First number, 0 to <see cref="NumberingRule.HighestNumber"/>.</param>
/// <param name="Last">Last number; below the first: none.</param>
public sealed record NumberRange(NumberingRule Rule, long First, long Last)
{
    /// <summary>
    /// An identity that both ranges would hand out, as the text behind company prefix and class of this one; null when there is
    /// none. Rules with other leading characters, padding or even prefixes may meet: leading 1 and number 23 is leading 12 and
    /// number 3. Exact; tested against counting all identities in NumberRangeTests.
    /// </summary>
    /// <param name="other">Another range.</param>
    public string? SharedWith(NumberRange other)
    {
        ArgumentNullException.ThrowIfNull(other);
        if (Rule.Scheme.Kind != other.Rule.Scheme.Kind)
            return null;
        var (mine, theirs) = (Rule.KeyStart, other.Rule.KeyStart);
        if (mine.Length > theirs.Length)
            return other.SharedTextBehind(this) is { } text ? (theirs + text)[(mine.Length - Rule.Leading.Length)..] : null;
        return SharedTextBehind(other) is { } shared ? Rule.Leading + shared : null;
    }

    // The other's start is as long or longer: what it has more is the beginning of our number.
    private string? SharedTextBehind(NumberRange other)
    {
        var (mine, theirs) = (Rule.KeyStart, other.Rule.KeyStart);
        if (!theirs.StartsWith(mine, StringComparison.Ordinal))
            return null;
        var between = theirs[mine.Length..];
        if (between.Any(c => !char.IsAsciiDigit(c)))
            return null;
        for (var length = 1; between.Length + length <= NumberingRule.MaxDigits; length++)
        {
            var (low, high) = other.WithDigits(length);
            var (lowWhole, highWhole) = WithDigits(between.Length + length);
            var offset = between.Length == 0 ? 0 : long.Parse(between, CultureInfo.InvariantCulture) * PowerOfTen(length);
            var shared = Math.Max(low, lowWhole - offset);
            if (shared <= Math.Min(high, highWhole - offset))
                return between + shared.ToString($"D{length}", CultureInfo.InvariantCulture);
        }

        return null;
    }

    /// <summary>Numbers of the range that are written with so many digits; low above high: none.</summary>
    private (long Low, long High) WithDigits(int length)
    {
        if (Rule.Digits is { } digits)
            return digits == length ? (First, Math.Min(Last, PowerOfTen(length) - 1)) : (0, -1);
        return (Math.Max(First, length == 1 ? 0 : PowerOfTen(length - 1)), Math.Min(Last, PowerOfTen(length) - 1));
    }

    private static long PowerOfTen(int exponent)
    {
        var power = 1L;
        for (var i = 0; i < exponent; i++)
            power *= 10;
        return power;
    }
}
