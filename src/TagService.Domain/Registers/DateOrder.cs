namespace TagService.Domain.Registers;

/// <summary>Order of day, month and year in dates written as text.</summary>
public enum DateOrder
{
    /// <summary>ISO 8601, day first with points (31.12.2025), and whatever can be meant in one way only.</summary>
    Unambiguous,

    /// <summary>Day, month, year.</summary>
    DayMonthYear,

    /// <summary>Month, day, year.</summary>
    MonthDayYear,
}
