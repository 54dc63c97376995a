using TagService.Domain.Attachments;

namespace TagService.Domain.Tests.Attachments;

/// <summary>Ages worked out by hand on a grid of Julian years (365.25 days), by the definitions of late entry and of (L, R].</summary>
public sealed class LifetimeBoundsTests
{
    private static readonly DateTimeOffset Origin = new(2020, 1, 1, 0, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Of_ExactStartAndFailureFoundAtAVisit_IsBetweenLastAnswerAndVisit() =>
        AssertObserved(LifetimeBounds.Of(At(1, 1, 4, "stopped-answering"), Year(3), null), 0, 2, 3, LifetimeBounds.Outcome.Failed, 0);

    [Fact]
    public void Of_FailureKnownBeforeTheVisit_IsNotStretchedToTheVisit() =>
        AssertObserved(LifetimeBounds.Of(At(1, 1, 4, "damaged"), Year(2), Year(3)), 0, 1, 2, LifetimeBounds.Outcome.Failed, 0);

    [Fact]
    public void Of_StartBetweenTwoDates_WidensBothSides() =>
        AssertObserved(LifetimeBounds.Of(At(0, 2, 5, "fell-off"), Year(4), null), 0, 2, 5, LifetimeBounds.Outcome.Failed, 2);

    [Fact]
    public void Of_PairTakenOver_EntersAtTheAgeItHadWhenRecorded() =>
        AssertObserved(
            LifetimeBounds.Of(At(0, 0, null, null) with { TakenOver = true, RecordedAt = Year(3) }, Year(5), null), 3, 5, null, LifetimeBounds.Outcome.Unsettled, 0);

    // Design, lifetimes: censored at its last read, not today.
    [Fact]
    public void Of_OpenAndNotReadSince_IsCensoredAtItsLastRead() =>
        AssertObserved(LifetimeBounds.Of(At(1, 1, null, null), Year(3), null), 0, 2, null, LifetimeBounds.Outcome.Unsettled, 0);

    [Fact]
    public void Of_WorkingTagMoved_IsCensoredAtItsRemoval() =>
        AssertObserved(LifetimeBounds.Of(At(1, 1, 4, "moved-to-another-asset"), Year(2), null), 0, 3, null, LifetimeBounds.Outcome.Removed, 0);

    [Fact]
    public void Of_AssetRetired_IsCensoredAtItsLastRead() =>
        AssertObserved(LifetimeBounds.Of(At(1, 1, 4, "asset-retired"), Year(2), null), 0, 1, null, LifetimeBounds.Outcome.Removed, 0);

    [Fact]
    public void Of_EveryReason_GivesAFailureExactlyWhereItsKindIsFailure() => Assert.All(EndReasons.All, reason =>
    {
        var bounds = LifetimeBounds.Of(At(1, 1, 4, reason.Id), Year(2), null);
        Assert.Equal(reason.Kind == EndKind.RecordingMistake, bounds is LifetimeBounds.NotUsable);
        Assert.Equal(reason.Kind == EndKind.Failure, bounds is LifetimeBounds.Observed { Right: not null, Ending: LifetimeBounds.Outcome.Failed });
        Assert.Equal(reason.Kind == EndKind.Removal, bounds is LifetimeBounds.Observed { Ending: LifetimeBounds.Outcome.Removed });
    });

    [Fact]
    public void Of_WhatSaysNothing_SaysWhy()
    {
        Assert.Contains("no latest time", Reason(At(1, null, 4, "damaged")), StringComparison.Ordinal);
        Assert.Contains("no earliest", Reason(At(null, 1, 4, "damaged")), StringComparison.Ordinal);
        Assert.Contains("latest time of that", Reason(At(1, 1, null, "damaged")), StringComparison.Ordinal);
        Assert.Contains("answered at 2022-12-31", Reason(At(1, 1, 2, "damaged"), Year(3)), StringComparison.Ordinal);
        Assert.Contains("very start", Reason(At(1, 1, 1, "damaged")), StringComparison.Ordinal);
        Assert.Contains("before it was under observation", Reason(At(1, 1, 2, "damaged") with { TakenOver = true, RecordedAt = Year(3) }), StringComparison.Ordinal);
    }

    private static string Reason(Attachment attachment, DateTimeOffset? answered = null) =>
        Assert.IsType<LifetimeBounds.NotUsable>(LifetimeBounds.Of(attachment, answered, null)).Reason;

    private static DateTimeOffset Year(double years) => Origin.AddDays(365.25 * years);

    private static Attachment At(int? startFrom, int? startTo, int? end, string? reason) => Invented.On("A", 1, Moment.Between(Or(startFrom), Or(startTo))) with
    {
        End = reason is null ? null : new(end is { } year ? Moment.At(Year(year)) : Moment.Unknown, reason), RecordedAt = Year(6),
    };

    private static DateTimeOffset? Or(int? year) => year is { } y ? Year(y) : null;

    private static void AssertObserved(LifetimeBounds bounds, double entry, double left, double? right, LifetimeBounds.Outcome outcome, double uncertainty)
    {
        var observed = Assert.IsType<LifetimeBounds.Observed>(bounds);
        Assert.Equal((entry, left, right, uncertainty), (R(observed.Entry.Value), R(observed.Left.Value), observed.Right is { } r ? R(r.Value) : null, R(observed.StartUncertainty.Value)));
        Assert.Equal(outcome, observed.Ending);
    }

    private static double R(double years) => Math.Round(years, 6);
}
