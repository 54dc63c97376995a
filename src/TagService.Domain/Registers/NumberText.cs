using System.Globalization;

namespace TagService.Domain.Registers;

/// <summary>How reading a number ended.</summary>
public enum NumberOutcome
{
    /// <summary>It is a number.</summary>
    Read,

    /// <summary>It is none, or leaves the range of decimal (7.9e28).</summary>
    NotANumber,

    /// <summary>It can be meant in two ways, for example 1.234.</summary>
    Ambiguous,
}

/// <summary>Numbers as people write them.</summary>
public static class NumberText
{
    private const int GroupLength = 3;
    private const int Longest = 60;

    /// <summary>
    /// Reads a number with its decimal mark and groups of three digits. Exact (decimal); tested in NumberTextTests.
    /// </summary>
    /// <param name="text">Without a unit; at most 60 characters count as a number.</param>
    /// <param name="mark">The decimal mark.</param>
    /// <param name="value">The number, 0 when there is none.</param>
    public static NumberOutcome Parse(ReadOnlySpan<char> text, DecimalMark mark, out decimal value)
    {
        value = 0;
        text = text.Trim();
        if (text.Length is 0 or > Longest)
            return NumberOutcome.NotANumber;
        var negative = text[0] is '-' or '−';
        if (negative || text[0] == '+')
            text = text[1..].TrimStart();
        var exponent = text.IndexOfAny('e', 'E');
        var body = exponent < 0 ? text : text[..exponent];
        if (body.IsEmpty || !(char.IsAsciiDigit(body[0]) || body[0] is '.' or ',') || !char.IsAsciiDigit(body[^1]))
            return NumberOutcome.NotANumber;
        // Nobody groups thousands in front of an exponent.
        if (DecimalPlace(body, exponent >= 0 && mark == DecimalMark.Unambiguous && !body.Contains(',') ? DecimalMark.Point : mark, out var at) is var found && found != NumberOutcome.Read)
            return found;

        Span<char> plain = stackalloc char[Longest + 1];
        var n = 0;
        if (!Whole(at < 0 ? body : body[..at], exponent >= 0, plain, ref n))
            return NumberOutcome.NotANumber;
        if (at >= 0 && !Broken(body[(at + 1)..], plain, ref n))
            return NumberOutcome.NotANumber;
        if (exponent >= 0)
        {
            text[exponent..].CopyTo(plain[n..]);
            n += text.Length - exponent;
        }

        const NumberStyles Style = NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;
        if (!decimal.TryParse(plain[..n], Style, CultureInfo.InvariantCulture, out value))
            return NumberOutcome.NotANumber;
        value = negative ? -value : value;
        return NumberOutcome.Read;
    }

    private static NumberOutcome DecimalPlace(ReadOnlySpan<char> body, DecimalMark mark, out int at)
    {
        at = -1;
        var (points, commas) = (body.Count('.'), body.Count(','));
        if (mark != DecimalMark.Unambiguous)
        {
            var decimalMark = mark == DecimalMark.Point ? '.' : ',';
            at = body.IndexOf(decimalMark);
            return at >= 0 && body[(at + 1)..].Contains(decimalMark) ? NumberOutcome.NotANumber : NumberOutcome.Read;
        }

        if (points > 0 && commas > 0)
        {
            // The last one is the decimal mark, and there is only one of it.
            at = body.LastIndexOfAny('.', ',');
            return body.Count(body[at]) == 1 ? NumberOutcome.Read : NumberOutcome.NotANumber;
        }

        if (points + commas != 1)
            return NumberOutcome.Read;
        at = body.IndexOfAny('.', ',');
        var before = body[..at];
        var after = body[(at + 1)..];
        var grouped = before.Length is >= 1 and <= GroupLength && after.Length == GroupLength
            && before[0] != '0' && !before.ContainsAnyExceptInRange('0', '9');
        return grouped ? NumberOutcome.Ambiguous : NumberOutcome.Read;
    }

    // 1 234 567 or 1.234.567 or 1'234'567 with one kind of mark throughout, or plain digits.
    private static bool Whole(ReadOnlySpan<char> whole, bool plainOnly, Span<char> output, ref int n)
    {
        var separator = '\0';
        var (run, first) = (0, true);
        foreach (var c in whole)
        {
            if (char.IsAsciiDigit(c))
            {
                output[n++] = c;
                run++;
                continue;
            }

            var kind = c is '.' or ',' ? c : c is '\'' or '’' ? '\'' : c is ' ' or '\u00A0' or '\u202F' or '\u2009' ? ' ' : '\0';
            var runFits = first ? run is >= 1 and <= GroupLength : run == GroupLength;
            if (kind == '\0' || plainOnly || !runFits || (separator != '\0' && separator != kind))
                return false;
            (separator, first, run) = (kind, false, 0);
        }

        return separator == '\0' || run == GroupLength;
    }

    private static bool Broken(ReadOnlySpan<char> digits, Span<char> output, ref int n)
    {
        if (digits.IsEmpty || digits.ContainsAnyExceptInRange('0', '9'))
            return false;
        output[n++] = '.';
        digits.CopyTo(output[n..]);
        n += digits.Length;
        return true;
    }
}
