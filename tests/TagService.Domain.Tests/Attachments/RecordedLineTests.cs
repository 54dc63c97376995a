using CsCheck;
using TagService.Domain.Attachments;

namespace TagService.Domain.Tests.Attachments;

public sealed class RecordedLineTests
{
    private const int LastDay = 6;

    private static readonly Gen<RecordedLine> Lines =
        from tag in Invented.One("T1", "T2", "T3")
        from asset in Invented.One("A", "B")
        from start in Invented.Moments(LastDay)
        from end in Gen.Bool.SelectMany(b => b ? Invented.Moments(LastDay).Select(m => (Moment?)m) : Gen.Const((Moment?)null))
        from reason in Invented.One("fell-off", "asset-retired", "never-happened")
        from method in Invented.One<string?>(null, "screws")
        from previous in Gen.Int[0, 3]
        let said = Invented.On(asset, 0, start, end, reason, tag) with { MethodId = method }
        select new RecordedLine(
            KeyOf(said, previous), said, previous == 0 ? new PreviousEnd(null, Moment.Unknown, "damaged") : null);

    private static readonly Gen<(int Nth, int Kind, Moment Moment)> Corrections = Gen.Select(Gen.Int[0, 9], Gen.Int[0, 3], Invented.Moments(LastDay));

    [Fact]
    public void Take_LinesDeliveredAgainAfterCorrections_ChangeNothing() =>
        Gen.Select(Lines.Array[1, 15], Corrections.Array[0, 6]).Sample((lines, corrections) =>
        {
            var ledger = new AttachmentLedger();
            var first = Deliver(ledger, lines, 1);
            Correct(ledger, corrections);
            var before = ledger.Changed.ToArray();

            var second = Deliver(ledger, lines, 1000);

            // What was taken is known. What was refused may be possible since the corrections, so only taken lines are compared.
            for (var i = 0; i < lines.Length; i++)
            {
                if (first[i] is Recording.Started or Recording.Ended)
                    Assert.IsType<Recording.Known>(second[i]);
            }

            if (corrections.Length == 0 && first.All(r => r is not Recording.Refused))
                Assert.Equal(before, ledger.Changed);
            Assert.All(before, b => Assert.NotNull(ledger.Find(b.Id)));
        });

    [Fact]
    public void Take_AnyLines_KeepEachTagOnOneAssetAtATime() => Lines.Array[1, 20].Sample(lines =>
    {
        var ledger = new AttachmentLedger();
        Deliver(ledger, lines, 1);
        foreach (var tag in new[] { "T1", "T2", "T3" })
        {
            var counting = ledger.HistoryOf(tag).All.Where(a => !a.IsVoid).ToArray();
            Assert.DoesNotContain(
                from a in counting from b in counting where a.Id != b.Id select AttachmentSpan.Of(a).Excludes(AttachmentSpan.Of(b)), excluded => excluded);
        }

        // What the ledger says is open on an asset is what its histories say.
        foreach (var asset in new[] { "A", "B" })
            Assert.Equal(ledger.Changed.Where(a => a.IsOpen && a.AssetId == asset), ledger.OpenOn(asset));
    });

    [Fact]
    public void Take_EndOfAPairFoundEarlier_EndsIt()
    {
        var ledger = new AttachmentLedger(Invented.On("A", 1, Moment.Unknown));
        var line = Line(Invented.On("A", 2, Moment.Unknown, Moment.At(Invented.Day(950))));
        var ended = Assert.IsType<Recording.Ended>(line.TakeInto(ledger, Invented.Now));
        Assert.Equal((Invented.Id(1), "fell-off", Moment.At(Invented.Day(950))), (ended.Attachment.Id, ended.Attachment.End!.ReasonId, ended.Attachment.End.At));
        Assert.IsType<Recording.Known>(line.TakeInto(ledger, Invented.Now));
    }

    [Fact]
    public void Take_ReplacementOnAnAsset_EndsTheOldTagNotAfterTheNewOneBegan()
    {
        var ledger = new AttachmentLedger(Invented.On("A", 1, Moment.Unknown, tag: "OLD"));
        var line = new RecordedLine(Invented.Id(77), Invented.On("A", 2, Moment.At(Invented.Day(910)), tag: "NEW"), new(null, Moment.Unknown, "damaged"));
        var started = Assert.IsType<Recording.Started>(line.TakeInto(ledger, Invented.Now));
        Assert.Equal(("OLD", Moment.Between(null, Invented.Day(910))), (started.Previous!.Tag, started.Previous.End!.At));
        Assert.IsType<Recording.Known>(line.TakeInto(ledger, Invented.Now));
        Assert.Equal(2, ledger.Changed.Count());
    }

    [Fact]
    public void Take_ReplacementOnAnAssetWithTwoTags_AsksWhichOne()
    {
        var ledger = new AttachmentLedger(Invented.On("A", 1, Moment.Unknown, tag: "T1"), Invented.On("A", 2, Moment.Unknown, tag: "T2"));
        var line = new RecordedLine(Invented.Id(77), Invented.On("A", 3, Moment.Unknown, tag: "NEW"), new(null, Moment.Unknown, "damaged"));
        var refusal = Assert.IsType<AttachmentRefusal.NotOne>(Assert.IsType<Recording.Refused>(line.TakeInto(ledger, Invented.Now)).Refusal);
        Assert.Equal([Invented.Id(1), Invented.Id(2)], refusal.Possible.Select(a => a.Id));
        var named = line with { Previous = new(Invented.Id(2), Moment.Unknown, "damaged") };
        Assert.Equal("T2", Assert.IsType<Recording.Started>(named.TakeInto(ledger, Invented.Now)).Previous!.Tag);
    }

    [Fact]
    public void Take_PairThatHasEnded_IsNotStartedAgainWithoutASignOfIt()
    {
        var ledger = new AttachmentLedger(Invented.On("A", 1, Moment.Unknown, Moment.At(Invented.Day(3))));
        var refused = Assert.IsType<Recording.Refused>(Line(Invented.On("A", 2, Moment.Unknown)).TakeInto(ledger, Invented.Now));
        Assert.Equal(Invented.Id(1), Assert.IsType<AttachmentRefusal.RecordedOtherwise>(refused.Refusal).Recorded.Id);
        Assert.IsType<Recording.Started>(Line(Invented.On("A", 2, Moment.Between(Invented.Day(3), null))).TakeInto(ledger, Invented.Now));
    }

    private static RecordedLine Line(Attachment said) => new(KeyOf(said, 9), said, null);

    private static Recording[] Deliver(AttachmentLedger ledger, RecordedLine[] lines, int firstId) =>
        [.. lines.Select((line, i) => (line with { Attachment = line.Attachment with { Id = Invented.Id(firstId + i) } }).TakeInto(ledger, Invented.Now))];

    private static void Correct(AttachmentLedger ledger, (int Nth, int Kind, Moment Moment)[] corrections)
    {
        foreach (var (nth, kind, moment) in corrections)
        {
            if (ledger.Changed.ElementAtOrDefault(nth) is not { } known)
                continue;
            var right = kind switch
            {
                0 => known with { Start = moment },
                1 => known with { AssetId = "C" },
                2 => known with { End = new(moment, "not-known") },
                _ => known with { End = new(Moment.Unknown, "never-happened") },
            };
            ledger.Correct(right, Invented.Now);
        }
    }

    // Distinct contents get distinct keys: the text of the record is as good as a hash.
    private static Guid KeyOf(Attachment said, int previous) =>
        new(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes($"{said}{previous == 0}")).AsSpan(0, 16));
}
