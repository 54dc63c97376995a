using System.Runtime.CompilerServices;
using System.Threading.Channels;
using TagService.Intake.Registers;

namespace TagService.Worker.Registers;

/// <summary>Pages of a source that are written together: small pages would cost a commit each.</summary>
/// <param name="Rows">Rows in the source's order.</param>
/// <param name="Unreadable">Rows that could not be read.</param>
/// <param name="Notices">What to know of the source.</param>
/// <param name="Announced">Rows of the whole pass that the source has announced so far.</param>
/// <param name="After">The position behind them.</param>
/// <param name="End">How the pass ended, if it did.</param>
internal sealed record PageGroup(
    IReadOnlyList<RawRow> Rows, IReadOnlyList<UnreadableRow> Unreadable, IReadOnlyList<RegisterNotice> Notices, long? Announced, RegisterPosition After, PassEnd? End)
{
    /// <summary>Rows that are written together at most; a page of the reader has a thousand at most.</summary>
    private const int Most = 4000;

    private const int PagesAhead = 8;

    /// <summary>
    /// Reads ahead while the database works, and hands on what is there: a slow source is written page by page, a fast one some thousands
    /// of rows at a time.
    /// </summary>
    public static async IAsyncEnumerable<PageGroup> ReadAsync(
        IRegisterReader reader, RegisterPosition? after, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        var pages = Channel.CreateBounded<RegisterPage>(new BoundedChannelOptions(PagesAhead) { SingleReader = true, SingleWriter = true });
        var reading = Task.Run(() => PumpAsync(reader, after, pages.Writer, stop.Token), CancellationToken.None);
        try
        {
            while (await pages.Reader.WaitToReadAsync(cancellationToken))
            {
                var together = new List<RegisterPage>();
                var rows = 0;
                while (rows <= Most && pages.Reader.TryRead(out var page))
                {
                    together.Add(page);
                    rows += page.Rows.Count + page.Unreadable.Count;
                }

                yield return new(
                    [.. together.SelectMany(p => p.Rows)], [.. together.SelectMany(p => p.Unreadable)], [.. together.SelectMany(p => p.Notices)],
                    together[^1].End?.Announced ?? together[^1].Announced, together[^1].After, together[^1].End);
            }
        }
        finally
        {
            await stop.CancelAsync();
            await reading;
        }
    }

    private static async Task PumpAsync(IRegisterReader reader, RegisterPosition? after, ChannelWriter<RegisterPage> pages, CancellationToken stop)
    {
        try
        {
            await foreach (var page in reader.ReadAsync(after, stop))
                await pages.WriteAsync(page, stop);
            pages.Complete();
        }
        catch (Exception e)
        {
            // Heard by whoever reads the channel, behind the pages that came before.
            pages.Complete(e);
        }
    }
}
