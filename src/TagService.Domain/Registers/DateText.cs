using System.Buffers;
using System.Globalization;

namespace TagService.Domain.Registers;

/// <summary>Dates as registers write them.</summary>
public static class DateText
{
    private const int FirstYear = 1900;
    private const int LastYear = 2200;

    // Digits, colons, fractions, offset, a.m. and p.m.; anything else is no time of day.
    private static readonly SearchValues<char> OfTimes = SearchValues.Create("0123456789:.,+-ZAPMapm ");

    /// <summary>
    /// The date, or null. A year has four digits and lies in 1900 to 2200; a time of day behind the date is left out. ISO 8601
    /// (also without hyphens) is always read. Tested in DateTextTests.
    /// </summary>
    /// <param name="text">For example 2025-12-31, 31.12.2025, 12/31/2025 08:00.</param>
    /// <param name="order">Order of the parts where it is not ISO 8601.</param>
    public static DateOnly? Parse(string text, DateOrder order)
    {
        var day = WithoutTime(text.Trim());
        if (DateOnly.TryParseExact(day, ["yyyy-MM-dd", "yyyyMMdd", "yyyy/MM/dd", "yyyy.MM.dd"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var iso))
            return InRange(iso);
        var separator = day.AsSpan().IndexOfAny('.', '/', '-') is >= 0 and var at ? day[at] : '\0';
        var parts = day.Split(separator);
        if (parts.Length != 3 || parts[2].Length != 4 || !parts.All(p => p.Length is >= 1 and <= 4 && p.All(char.IsAsciiDigit)))
            return null;
        var (first, second, year) = (Number(parts[0]), Number(parts[1]), Number(parts[2]));
        return order switch
        {
            DateOrder.DayMonthYear => Make(year, second, first),
            DateOrder.MonthDayYear => Make(year, first, second),
            _ when separator == '.' || first > 12 || first == second => Make(year, second, first),
            _ when second > 12 => Make(year, first, second),
            _ => null,
        };
    }

    private static string WithoutTime(string text)
    {
        var at = text.AsSpan().IndexOfAny('T', ' ');
        if (at < 0)
            return text;
        var time = text.AsSpan(at + 1);
        return time.Length > 0 && char.IsAsciiDigit(time[0]) && time.Contains(':')
            && !time.ContainsAnyExcept(OfTimes) ? text[..at] : text;
    }

    private static int Number(string digits) => int.Parse(digits, CultureInfo.InvariantCulture);

    private static DateOnly? Make(int year, int month, int day) =>
        year is >= FirstYear and <= LastYear && month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, month)
            ? new DateOnly(year, month, day)
            : null;

    private static DateOnly? InRange(DateOnly date) => date.Year is >= FirstYear and <= LastYear ? date : null;
}
