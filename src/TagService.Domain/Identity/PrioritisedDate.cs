using System.Globalization;

namespace TagService.Domain.Identity;

/// <summary>The date that the DSGTIN schemes put before the GTIN (TDS 2.3, section 14.5.3; read).</summary>
/// <param name="Type">4-bit type: 0 production, 1 packaging, 2 best before, 3 sell by, 4 expiration, 5 first freeze, 6 harvest.</param>
/// <param name="Year">Two digits of the year, 0 to 99.</param>
/// <param name="Month">1 to 12.</param>
/// <param name="Day">1 to the days of the month; 0 where only the month is meant.</param>
public readonly record struct PrioritisedDate(int Type, int Year, int Month, int Day)
{
    private static readonly string[] Ais = ["11", "13", "15", "16", "17", "7006", "7007"];

    /// <summary>AI of the date, for example 17 for an expiration date.</summary>
    public string Ai => Ais[Type];

    /// <summary>YYMMDD.</summary>
    public string Digits => string.Create(CultureInfo.InvariantCulture, $"{Year:00}{Month:00}{Day:00}");

    // A leap year stands for all: two digits do not say which century.
    internal bool IsValid => Type >= 0 && Type < Ais.Length && Year is >= 0 and <= 99 && Month is >= 1 and <= 12
        && Day >= 0 && Day <= DateTime.DaysInMonth(2000, Month);

    internal static PrioritisedDate Read(ref BitReader reader)
    {
        var type = (int)reader.Read(4);
        var year = (int)reader.Read(7);
        var month = (int)reader.Read(4);
        return new(type, year, month, (int)reader.Read(5));
    }

    internal void Write(ref BitWriter writer)
    {
        writer.Write((ulong)Type, 4);
        writer.Write((ulong)Year, 7);
        writer.Write((ulong)Month, 4);
        writer.Write((ulong)Day, 5);
    }
}
