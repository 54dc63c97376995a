using System.Threading.Channels;
using TagService.Api.Http.Problems;
using TagService.Storage.Attachments;

namespace TagService.Api.Features.Attachments;

/// <summary>Reads and checks the next lines while the last ones are being recorded; in order, and never more than a few chunks in memory.</summary>
internal sealed class BatchPipeline(AttachmentBatchWriter writer, BatchLineReader reader, bool createAssets, BatchAnswers answers)
{
    private const int ChunksAhead = 2;

    /// <summary>Runs until the input ends.</summary>
    /// <param name="input">Lines, at most as many at a time as the writer takes.</param>
    /// <param name="stop">Stops the input when recording fails.</param>
    public async Task RunAsync(IAsyncEnumerable<List<BatchLine>> input, CancellationTokenSource stop)
    {
        var chunks = Channel.CreateBounded<List<Checked>>(new BoundedChannelOptions(ChunksAhead) { SingleReader = true, SingleWriter = true });
        var reading = Task.Run(() => ReadAsync(input, chunks.Writer, stop.Token), CancellationToken.None);
        try
        {
            await foreach (var chunk in chunks.Reader.ReadAllAsync(stop.Token))
                await RecordAsync(chunk, stop.Token);
        }
        catch
        {
            await stop.CancelAsync();
            // Its failure is ours, or follows from it.
            await reading.ContinueWith(static _ => { }, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
            throw;
        }

        await reading;
    }

    private async Task ReadAsync(IAsyncEnumerable<List<BatchLine>> input, ChannelWriter<List<Checked>> chunks, CancellationToken cancellationToken)
    {
        try
        {
            await foreach (var lines in input.WithCancellation(cancellationToken))
                await chunks.WriteAsync(lines.ConvertAll(Check), cancellationToken);
            chunks.Complete();
        }
        catch (Exception e)
        {
            chunks.Complete(e);
        }
    }

    private Checked Check(BatchLine line)
    {
        if (line.Value is null)
            return new(line.Number, null, line.Problem);
        var (entry, problem) = reader.Read(line.Value);
        return new(line.Number, entry, problem);
    }

    private async Task RecordAsync(List<Checked> chunk, CancellationToken cancellationToken)
    {
        var entries = chunk.Where(c => c.Entry is not null).Select(c => c.Entry!).ToList();
        var results = entries.Count == 0 ? [] : await writer.WriteAsync(entries, createAssets, reader.FindClass, cancellationToken);
        var tagBatches = results.Any(r => r is BatchResult.NoSuchTagBatch) ? await writer.TagBatchIdsAsync(cancellationToken) : [];
        var next = 0;
        foreach (var line in chunk)
        {
            if (line.Entry is null)
                answers.Refuse(line.Number, line.Problem!);
            else
                answers.Add(line.Number, results[next++], tagBatches);
        }

        await answers.FlushAsync(cancellationToken);
    }

    /// <summary>A line ready to be recorded, or refused.</summary>
    private readonly record struct Checked(long Number, BatchEntry? Entry, ApiProblem? Problem);
}
