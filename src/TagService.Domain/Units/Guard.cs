using System.Globalization;
using System.Runtime.CompilerServices;

namespace TagService.Domain.Units;

/// <summary>The one place where arguments of numeric functions are checked.</summary>
public static class Guard
{
    /// <summary>Returns <paramref name="value"/> when it lies in the closed range; rejects NaN and infinities.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range; the message names the argument, its value and the range.</exception>
    public static double InRange(
        double value, double min, double max, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        // Written so that NaN fails.
        if (!(value >= min && value <= max))
            Throw(name, value, FormattableString.Invariant($"{min} to {max}"));
        return value;
    }

    /// <summary>Returns <paramref name="value"/> when it is finite and above zero.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static double Positive(double value, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (!(value > 0 && value <= double.MaxValue))
            Throw(name, value, "a finite number above 0");
        return value;
    }

    /// <summary>Returns <paramref name="value"/> when it is finite and not negative.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative, NaN or infinite.</exception>
    public static double NotNegative(double value, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (!(value >= 0 && value <= double.MaxValue))
            Throw(name, value, "a finite number of at least 0");
        return value;
    }

    /// <summary>Returns <paramref name="value"/> when it is neither NaN nor infinite.</summary>
    /// <exception cref="ArgumentOutOfRangeException">NaN or infinite.</exception>
    public static double Finite(double value, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (!double.IsFinite(value))
            Throw(name, value, "a finite number");
        return value;
    }

    private static void Throw(string name, double value, string accepted) =>
        throw new ArgumentOutOfRangeException(
            name, value, string.Create(CultureInfo.InvariantCulture, $"{name} is {value}; accepted: {accepted}."));
}
