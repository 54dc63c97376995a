using CsCheck;
using TagService.Domain.Attachments;

namespace TagService.Domain.Tests.Attachments;

/// <summary>Invented attachments on a grid of days.</summary>
internal static class Invented
{
    public static DateTimeOffset Now { get; } = Day(1000);

    public static Gen<T> One<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    public static Gen<Moment> Moments(int lastDay) => Gen.OneOf(
        Gen.Const(Moment.Unknown),
        Gen.Int[0, lastDay].Select(d => Moment.At(Day(d))),
        Gen.Int[0, lastDay].Select(d => Moment.Between(Day(d), null)),
        Gen.Int[0, lastDay].Select(d => Moment.Between(null, Day(d))),
        Gen.Select(Gen.Int[0, lastDay], Gen.Int[0, lastDay], (a, b) => Moment.Between(Day(Math.Min(a, b)), Day(Math.Max(a, b)))));

    public static DateTimeOffset Day(int day) => new DateTimeOffset(2026, 1, 1, 0, 0, 0, TimeSpan.Zero).AddDays(day);

    /// <summary>An id that rises with its number.</summary>
    public static Guid Id(int number) => new(number, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0);

    public static Attachment On(string assetId, int id, Moment start, Moment? end = null, string reason = "fell-off", string tag = "T1", int recorded = 900) => new()
    {
        Id = Id(id), Tag = tag, AssetId = assetId, Start = start, End = end is { } at ? new(at, reason) : null, RecordedAt = Day(recorded),
    };
}
