using System.Buffers.Text;
using TagService.Domain.Units;

namespace TagService.Api.Http.Json;

/// <summary>Writes numbers as the serializer does, faster where they have few decimals.</summary>
public static class JsonNumber
{
    /// <summary>Bytes of the longest number: sign, 17 digits, point, exponent of a double; sign, 29 digits, point of a decimal.</summary>
    public const int MaxBytes = 32;

    // Fifteen significant digits: every decimal up to there has a double of its own (IEEE 754; DBL_DIG of C), so a double
    // that equals thousandths / 1000 has no shorter decimal than that one without its trailing zeros.
    private const double MostThousandths = 1e15;

    /// <summary>Writes the shortest decimal that reads back as <paramref name="value"/>; returns the number of bytes.</summary>
    /// <exception cref="ArgumentOutOfRangeException">JSON has neither infinities nor NaN.</exception>
    public static int Write(double value, Span<byte> to)
    {
        var thousandths = Math.Round(value * 1000);
        if (Math.Abs(thousandths) < MostThousandths && thousandths / 1000 == value)
            return WriteThousandths((long)Math.Abs(thousandths), double.IsNegative(value), to);
        Utf8Formatter.TryFormat(Guard.Finite(value), to, out var written);
        return written;
    }

    private static int WriteThousandths(long thousandths, bool negative, Span<byte> to)
    {
        var at = 0;
        if (negative)
            to[at++] = (byte)'-';
        var (whole, rest) = Math.DivRem((ulong)thousandths, 1000);
        if (whole < 10)
        {
            to[at++] = (byte)('0' + whole);
        }
        else
        {
            Utf8Formatter.TryFormat(whole, to[at..], out var written);
            at += written;
        }

        if (rest == 0)
            return at;
        var (tenths, below) = Math.DivRem((uint)rest, 100);
        var (hundredths, last) = Math.DivRem(below, 10);
        to[at] = (byte)'.';
        to[at + 1] = (byte)('0' + tenths);
        to[at + 2] = (byte)('0' + hundredths);
        to[at + 3] = (byte)('0' + last);
        return at + (last != 0 ? 4 : hundredths != 0 ? 3 : 2);
    }
}
