using CsCheck;
using TagService.Domain.Attachments;

namespace TagService.Domain.Tests.Attachments;

/// <summary>
/// The rule of pairs against the question itself, asked the slow way: is there an order and a choice of a start and an end for each
/// attachment, within its bounds, so that one ends before the next begins? Every order and every choice on a grid is tried; bounds
/// lie on the grid, so choices between its points add nothing.
/// </summary>
public sealed class AttachmentSpanTests
{
    private const int LastDay = 5;

    private static readonly Gen<Attachment> Any =
        from start in Invented.Moments(LastDay)
        from end in Invented.Moments(LastDay)
        from open in Gen.Int[0, 4]
        from recorded in Gen.Int[LastDay, LastDay]
        select Invented.On("A", 1, start, open == 0 ? null : end, recorded: recorded);

    [Fact]
    public void Excludes_ForAllPairsOfASet_SaysWhetherAnyOrderIsPossible() =>
        Any.Where(IsPossible).Array[1, 4].Sample(
            set => Assert.Equal(SomeOrderWorks(set), !Pairs(set).Any(p => AttachmentSpan.Of(p.A).Excludes(AttachmentSpan.Of(p.B)))), iter: 20_000);

    [Fact]
    public void Excludes_IsSymmetric() => Any.Where(IsPossible).Array[2].Sample(
        pair => AttachmentSpan.Of(pair[0]).Excludes(AttachmentSpan.Of(pair[1])) == AttachmentSpan.Of(pair[1]).Excludes(AttachmentSpan.Of(pair[0])));

    [Fact]
    public void Excludes_TwoThatNobodyKnowsAnEndOf_Always() => Gen.Select(Invented.Moments(LastDay), Invented.Moments(LastDay)).Sample((a, b) =>
        Assert.True(AttachmentSpan.Of(Invented.On("A", 1, a)).Excludes(AttachmentSpan.Of(Invented.On("B", 2, b)))));

    [Fact]
    public void Excludes_EndAndStartAtTheSameTime_Never() =>
        Assert.False(AttachmentSpan.Of(Invented.On("A", 1, Moment.At(Invented.Day(1)), Moment.At(Invented.Day(3))))
            .Excludes(AttachmentSpan.Of(Invented.On("B", 2, Moment.At(Invented.Day(3))))));

    // An ended one that began, at the earliest, after the open one was certainly there.
    [Fact]
    public void Excludes_EndedAtAnUnknownTimeWithinAnOpenOne_Excludes() =>
        Assert.True(AttachmentSpan.Of(Invented.On("A", 1, Moment.Between(Invented.Day(3), null), Moment.Unknown))
            .Excludes(AttachmentSpan.Of(Invented.On("B", 2, Moment.At(Invented.Day(1))))));

    private static bool IsPossible(Attachment a) => AttachmentCheck.Refusal(a, Invented.Now) is null;

    private static IEnumerable<(Attachment A, Attachment B)> Pairs(Attachment[] set) =>
        from i in Enumerable.Range(0, set.Length)
        from j in Enumerable.Range(i + 1, set.Length - i - 1)
        select (set[i], set[j]);

    private static bool SomeOrderWorks(Attachment[] set) => Place([.. set.Select(Choices)], 0);

    // Days in plain numbers; an open one ends on no day of the grid. Recording on the grid's last day bounds an open one's start.
    private static List<(int Start, int End)> Choices(Attachment a) =>
    [
        .. from s in Enumerable.Range(0, LastDay + 1)
           where Fits(a.Start, s)
           from e in a.IsOpen ? [int.MaxValue] : Enumerable.Range(0, LastDay + 1).Where(e => Fits(a.End!.At, e))
           where s <= e
           select (s, e),
    ];

    private static bool Fits(Moment moment, int day) =>
        !(Invented.Day(day) < moment.NotBefore) && !(Invented.Day(day) > moment.NotAfter);

    private static bool Place(List<List<(int Start, int End)>> left, int from)
    {
        if (left.Count == 0)
            return true;
        foreach (var next in left)
        {
            var rest = left.Where(l => !ReferenceEquals(l, next)).ToList();
            foreach (var (start, end) in next)
            {
                if (start >= from && Place(rest, end))
                    return true;
            }
        }

        return false;
    }
}
