using System.Globalization;
using CsCheck;
using TagService.Domain.Registers;

namespace TagService.Domain.Tests.Registers;

public sealed class DateTextTests
{
    // ISO 8601-1:2019 calendar dates, extended and basic form; the other orders are common practice by country.
    [Theory]
    [InlineData("2025-12-31", DateOrder.Unambiguous, 2025, 12, 31)]
    [InlineData("20251231", DateOrder.Unambiguous, 2025, 12, 31)]
    [InlineData("2025-12-31T23:59:59Z", DateOrder.MonthDayYear, 2025, 12, 31)]
    [InlineData("2024-02-29 08:15", DateOrder.Unambiguous, 2024, 2, 29)]
    [InlineData("31.12.2025", DateOrder.Unambiguous, 2025, 12, 31)]
    [InlineData("3.4.2025", DateOrder.Unambiguous, 2025, 4, 3)]
    [InlineData("25/12/2025", DateOrder.Unambiguous, 2025, 12, 25)]
    [InlineData("12/25/2025", DateOrder.Unambiguous, 2025, 12, 25)]
    [InlineData("03/04/2025", DateOrder.DayMonthYear, 2025, 4, 3)]
    [InlineData("03/04/2025", DateOrder.MonthDayYear, 2025, 3, 4)]
    [InlineData("12/25/2025 08:00:00 PM", DateOrder.MonthDayYear, 2025, 12, 25)]
    public void Parse_DateAsWritten_IsRead(string text, DateOrder order, int year, int month, int day) =>
        Assert.Equal(new DateOnly(year, month, day), DateText.Parse(text, order));

    [Theory]
    [InlineData("03/04/2025", DateOrder.Unambiguous)]
    [InlineData("29.02.2025", DateOrder.Unambiguous)]
    [InlineData("31/12/25", DateOrder.DayMonthYear)]
    [InlineData("2025-13-01", DateOrder.Unambiguous)]
    [InlineData("25/12/2025", DateOrder.MonthDayYear)]
    [InlineData("31.12.2025 soon", DateOrder.Unambiguous)]
    [InlineData("1899-12-30", DateOrder.Unambiguous)]
    [InlineData("n/a", DateOrder.Unambiguous)]
    [InlineData("", DateOrder.Unambiguous)]
    public void Parse_NoDateOrTwoMeanings_IsNone(string text, DateOrder order) => Assert.Null(DateText.Parse(text, order));

    [Fact]
    public void Parse_EveryDay_ReadsBackInEveryOrder() =>
        Gen.Int[new DateOnly(1900, 1, 1).DayNumber, new DateOnly(2200, 12, 31).DayNumber].Sample(n =>
        {
            var day = DateOnly.FromDayNumber(n);
            Assert.Equal(day, DateText.Parse(day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), DateOrder.Unambiguous));
            Assert.Equal(day, DateText.Parse(day.ToString("dd'/'MM'/'yyyy", CultureInfo.InvariantCulture), DateOrder.DayMonthYear));
            Assert.Equal(day, DateText.Parse(day.ToString("MM'-'dd'-'yyyy", CultureInfo.InvariantCulture), DateOrder.MonthDayYear));
        });
}
