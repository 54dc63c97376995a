using System.Buffers;
using System.IO.Pipelines;
using System.Threading.Channels;
using TagService.Api.Http.Json;

namespace TagService.Api.Http.Ndjson;

/// <summary>
/// Lines in, lines out, in order and in constant memory: chunks of lines are answered in parallel and go out in the order they came.
/// <see cref="BatchGate"/> keeps it fair to single callers. Reading waits for a caller who reads slowly; for one who sends on without
/// reading, answers are put aside, and when there is no room left the rest of the lines is read without being answered: we would wait
/// for the caller to read, and the caller for us.
/// </summary>
/// <param name="answers">What the lines are answered.</param>
/// <param name="limits">What may be put aside.</param>
/// <param name="time">Clock of a caller's silence.</param>
internal sealed class OrderedPipeline(ILineAnswers answers, BatchSpooling limits, TimeProvider time)
{
    private const int LinesPerChunk = 16;

    private volatile bool _hasGivenUp;

    /// <summary>Runs until the input ends and the caller has read all.</summary>
    /// <param name="lines">Input.</param>
    /// <param name="output">Output.</param>
    /// <param name="cancellationToken">Stops reading, answering and writing.</param>
    /// <exception cref="TimeoutException">The caller has sent everything and reads nothing.</exception>
    public async Task RunAsync(LineReader lines, PipeWriter output, CancellationToken cancellationToken)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        using var queue = new AnswerQueue(output, limits, time);
        var chunks = Channel.CreateBounded<Task<Chunk>>(new BoundedChannelOptions(4 * Environment.ProcessorCount)
        {
            SingleReader = true, SingleWriter = true,
        });
        var sending = OrStopAsync(queue.SendAsync(stop.Token), stop);
        // A failure is reported before what was cancelled because of it.
        await Task.WhenAll(
            sending,
            OrStopAsync(OrderAsync(chunks.Reader, queue, sending, stop.Token), stop),
            OrStopAsync(ReadAsync(lines, chunks.Writer, stop.Token), stop));
    }

    private static async Task OrStopAsync(Task part, CancellationTokenSource stop)
    {
        try
        {
            await part;
        }
        catch
        {
            await stop.CancelAsync();
            throw;
        }
    }

    private async Task ReadAsync(LineReader lines, ChannelWriter<Task<Chunk>> chunks, CancellationToken cancellationToken)
    {
        while (await lines.ReadAsync(LinesPerChunk, cancellationToken) is { Count: > 0 } chunk)
            await chunks.WriteAsync(Task.Run(() => AnswerAsync(chunk, cancellationToken), cancellationToken), cancellationToken);
        chunks.Complete();
    }

    private async Task<Chunk> AnswerAsync(List<Line> lines, CancellationToken cancellationToken)
    {
        using var place = await BatchGate.EnterAsync(cancellationToken);
        var text = new JsonBytes();
        var refused = 0;
        foreach (var line in lines)
        {
            if (!_hasGivenUp)
            {
                if (!answers.Answer(line, text))
                    refused++;
                text.Write("\n"u8);
            }

            line.Return();
        }

        return new(text, lines[0].Number, lines[^1].Number, lines.Count, refused);
    }

    private async Task OrderAsync(ChannelReader<Task<Chunk>> chunks, AnswerQueue queue, Task sending, CancellationToken cancellationToken)
    {
        long answered = 0, refused = 0, firstNotRead = 0, lastNotRead = 0;
        await foreach (var task in chunks.ReadAllAsync(cancellationToken))
        {
            var chunk = await task;
            answered += chunk.Lines;
            if (!_hasGivenUp && await queue.TryAddAsync(chunk.Text, cancellationToken))
            {
                refused += chunk.Refused;
            }
            else
            {
                chunk.Text.Dispose();
                refused += chunk.Lines;
                (firstNotRead, lastNotRead) = (_hasGivenUp ? firstNotRead : chunk.FirstLine, chunk.LastLine);
                _hasGivenUp = true;
            }

            answers.Report(answered, refused);
        }

        queue.Complete(_hasGivenUp ? LastWord(firstNotRead, lastNotRead) : null);
        while (await Task.WhenAny(sending, Task.Delay(TimeSpan.FromSeconds(1), time, cancellationToken)) != sending)
        {
            if (queue.Unread >= limits.Abandon)
                throw new TimeoutException("The caller of a batch has sent everything and reads nothing.");
        }
    }

    private JsonBytes LastWord(long firstLine, long lastLine)
    {
        var text = new JsonBytes();
        answers.NotRead(text, firstLine, lastLine);
        text.Write("\n"u8);
        return text;
    }

    private sealed record Chunk(JsonBytes Text, long FirstLine, long LastLine, int Lines, int Refused);
}
