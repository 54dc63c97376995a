using CsCheck;
using TagService.Domain.Attachments;

namespace TagService.Domain.Tests.Attachments;

public sealed class AttachmentHistoryTests
{
    private const int LastDay = 8;
    private static readonly string[] Reasons = [.. EndReasons.All.Select(r => r.Id)];

    /// <summary>Anything anybody may record of attachment 1 to 6, right or wrong.</summary>
    private static readonly Gen<Step> Steps =
        from id in Gen.Int[1, 6]
        from asset in Invented.One("A", "B", "C")
        from start in Invented.Moments(LastDay)
        from end in Invented.Moments(LastDay)
        from reason in Invented.One(Reasons)
        from kind in Gen.Int[0, 3]
        select new Step(kind, id, asset, start, new(end, reason));

    [Fact]
    public void Changes_InAnySequence_NeverPutATagOnTwoAssetsAtOnce() => Steps.Array[1, 25].Sample(steps =>
    {
        var history = AttachmentHistory.Of("T1");
        foreach (var step in steps)
        {
            if (step.On(history) is HistoryChange.Changed changed)
                history = changed.History;
            // The obvious way: day by day, in half days, who certainly holds the tag?
            for (var half = 0; half <= 2 * (LastDay + 2); half++)
            {
                var time = Invented.Day(0).AddHours(12 * half);
                Assert.True(history.All.Count(a => CertainlyHolds(a, time)) <= 1);
            }

            Assert.True(history.All.Count(a => a.IsOpen) <= 1);
        }
    });

    [Fact]
    public void Changes_InAnySequence_KeepOnlyWhatWasEnteredLast() => Steps.Array[1, 25].Sample(steps =>
    {
        var history = AttachmentHistory.Of("T1");
        var entered = new Dictionary<Guid, Attachment>();
        foreach (var step in steps)
        {
            var outcome = step.On(history);
            if (outcome is HistoryChange.Changed changed)
            {
                history = changed.History;
                entered[changed.Attachment.Id] = step.Said(entered.GetValueOrDefault(Invented.Id(step.Id)));
            }

            // No gap, no date, no entry that nobody entered; and a refusal changes nothing.
            Assert.Equal(entered.Values.OrderBy(a => a.Id), history.All);
        }
    });

    // Whatever is possible all together is possible in every order, and ends the same.
    [Fact]
    public void Changes_IndependentOnesInEveryOrder_EndInTheSameState() =>
        (from target in Steps.Array[1, 12] from order in Gen.Shuffle(Enumerable.Range(0, 12).ToArray()) select (target, order)).Sample(x =>
        {
            var reached = AttachmentHistory.Of("T1");
            foreach (var step in x.target.Where(s => s.Kind == 0))
                reached = (step.On(reached) as HistoryChange.Changed)?.History ?? reached;
            var all = reached.All.ToArray();
            var again = AttachmentHistory.Of("T1");
            foreach (var i in x.order.Where(i => i < all.Length))
                again = Assert.IsType<HistoryChange.Changed>(again.Start(all[i], Invented.Now)).History;
            Assert.Equal(reached.All, again.All);

            // The same for corrections: all entered as mistakes at first, then put right in another order.
            var wrong = AttachmentHistory.Of("T1", all.Select(a => a with { Start = Moment.Unknown, End = new(Moment.Unknown, "never-happened") }));
            foreach (var i in x.order.Reverse().Where(i => i < all.Length))
                wrong = Assert.IsType<HistoryChange.Changed>(wrong.Correct(all[i], Invented.Now)).History;
            Assert.Equal(reached.All, wrong.All);
        });

    [Fact]
    public void Refusal_ForATakenTime_NamesTheOneInTheWayAndHowToEndIt()
    {
        var history = AttachmentHistory.Of("T1", Invented.On("PUMP-1", 1, Moment.At(Invented.Day(3))));
        var refused = Assert.IsType<HistoryChange.Refused>(history.Start(Invented.On("PUMP-2", 2, Moment.At(Invented.Day(5))), Invented.Now));
        var inTheWay = Assert.IsType<AttachmentRefusal.InTheWay>(refused.Refusal);
        Assert.Equal((Invented.Id(1), "startAt", "2026-01-06T00:00:00Z"), (inTheWay.Other.Id, inTheWay.Field, inTheWay.Value));
        Assert.Contains("PUMP-1", inTheWay.Detail, StringComparison.Ordinal);
        Assert.Contains("endPrevious", inTheWay.Accepted, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(3, 1, null, null, "startNotAfter")]
    [InlineData(3, 3, 2, 2, "endAt")]
    [InlineData(3, null, null, 2, "endNotAfter")]
    [InlineData(2000, 2000, null, null, "startAt")]
    [InlineData(0, 0, 2000, null, "endNotBefore")]
    [InlineData(-30_000, -30_000, null, null, "startAt")]
    public void Refusal_OfTimesThatCannotBe_NamesTheField(int? startFrom, int? startTo, int? endFrom, int? endTo, string field)
    {
        static DateTimeOffset? At(int? day) => day is { } d ? Invented.Day(d) : null;
        var end = endFrom is null && endTo is null ? (Moment?)null : Moment.Between(At(endFrom), At(endTo));
        var refused = Assert.IsType<HistoryChange.Refused>(
            AttachmentHistory.Of("T1").Start(Invented.On("A", 1, Moment.Between(At(startFrom), At(startTo)), end), Invented.Now));
        Assert.Equal(field, Assert.IsType<AttachmentRefusal.Contradictory>(refused.Refusal).Field);
    }

    [Theory]
    [InlineData(3.0, 4.0, null, "answeredAtM")]
    [InlineData(null, 4.0, 3.0, "answeredAtM")]
    [InlineData(3.0, null, 2.0, "silentAtM")]
    [InlineData(null, null, null, "answeredAtM")]
    public void Refusal_OfACheckThatCannotBe_NamesTheField(double? measured, double? answered, double? silent, string field)
    {
        var attachment = Invented.On("A", 1, Moment.Unknown) with
        {
            Check = new() { MeasuredRangeM = measured, AnsweredAtM = answered, SilentAtM = silent, EirpDbm = 30 },
        };
        Assert.Equal(field, AttachmentCheck.Refusal(attachment, Invented.Now)?.Field);
    }

    // The obvious way, from the words "latest start" and "earliest end".
    private static bool CertainlyHolds(Attachment a, DateTimeOffset time) =>
        !a.IsVoid && (a.Start.NotAfter ?? (a.IsOpen ? a.RecordedAt : DateTimeOffset.MaxValue)) <= time
        && (a.IsOpen || (a.End!.At.NotBefore is { } end && time < end));

    /// <summary>Kind 0: a new one; 1: ends it; 2: corrects dates and asset; 3: the same and takes the end back.</summary>
    private sealed record Step(int Kind, int Id, string Asset, Moment Start, AttachmentEnd End)
    {
        public HistoryChange? On(AttachmentHistory history)
        {
            var known = history.Find(Invented.Id(Id));
            return (Kind, known) switch
            {
                (0, null) => history.Start(Said(null), Invented.Now),
                (0, _) or (_, null) => null,
                (1, _) => history.End(known.Id, End, Invented.Now),
                _ => history.Correct(Said(known), Invented.Now),
            };
        }

        public Attachment Said(Attachment? known) => Kind switch
        {
            0 => Invented.On(Asset, Id, Start, Id % 3 == 0 ? null : End.At, End.ReasonId),
            1 => known! with { End = End },
            2 => known! with { AssetId = Asset, Start = Start, End = known.IsOpen ? null : End },
            _ => known! with { AssetId = Asset, Start = Start, End = null },
        };
    }
}
