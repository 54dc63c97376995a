using System.Globalization;
using System.Runtime.CompilerServices;

namespace TagService.Domain.Words;

/// <summary>Builds texts with figures in the invariant culture: an interpolated string whose numbers go through <see cref="DecimalText"/>.</summary>
internal static class InvariantText
{
    /// <summary>The text, for example <c>Of($"{rangeM:0.00} m")</c>.</summary>
    public static string Of(ref InvariantTextHandler text) => text.ToStringAndClear();
}

/// <summary>What the compiler fills for <see cref="InvariantText.Of"/>; no box and no intermediate string for a number.</summary>
[InterpolatedStringHandler]
internal ref struct InvariantTextHandler
{
    private DefaultInterpolatedStringHandler _text;

    public InvariantTextHandler(int literalLength, int formattedCount) =>
        _text = new(literalLength, formattedCount, CultureInfo.InvariantCulture);

    public void AppendLiteral(string value) => _text.AppendLiteral(value);

    public void AppendFormatted(ReadOnlySpan<char> value) => _text.AppendFormatted(value);

    public void AppendFormatted(string? value) => _text.AppendFormatted(value);

    public void AppendFormatted<T>(T value) => _text.AppendFormatted(value);

    public void AppendFormatted<T>(T value, string format) => _text.AppendFormatted(value, format);

    public void AppendFormatted(double value, string format)
    {
        Span<char> figure = stackalloc char[DecimalText.MostCharacters];
        if (DecimalText.TryFormat(value, format, figure, out var written))
            _text.AppendFormatted(figure[..written]);
        else
            _text.AppendFormatted(value, format);
    }

    public void AppendFormatted(double? value, string format)
    {
        if (value is { } number)
            AppendFormatted(number, format);
    }

    public string ToStringAndClear() => _text.ToStringAndClear();
}
