using System.Buffers;
using System.IO.Pipelines;
using System.Threading.Channels;
using TagService.Api.Http.Json;

namespace TagService.Api.Http.Ndjson;

/// <summary>
/// Lines in, lines out, in order and in constant memory: chunks of lines are answered in parallel, written in the order
/// they came, and reading waits when the writer is behind. <see cref="BatchGate"/> keeps it fair to single callers.
/// </summary>
internal static class OrderedPipeline
{
    private const int LinesPerChunk = 16;

    /// <summary>Runs until the input ends.</summary>
    /// <param name="lines">Input.</param>
    /// <param name="output">Output.</param>
    /// <param name="answer">Writes the answer to one line; called from several threads. Returns whether the line was good.</param>
    /// <param name="progress">Called after each chunk with lines answered and refused so far.</param>
    /// <param name="cancellationToken">Stops reading, answering and writing.</param>
    public static async Task RunAsync(
        LineReader lines, PipeWriter output, Func<Line, JsonBytes, bool> answer,
        Action<long, long> progress, CancellationToken cancellationToken)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        var chunks = Channel.CreateBounded<Task<Chunk>>(new BoundedChannelOptions(4 * Environment.ProcessorCount)
        {
            SingleReader = true, SingleWriter = true,
        });
        var writing = WriteAsync(chunks.Reader, output, progress, stop);
        try
        {
            while (await lines.ReadAsync(LinesPerChunk, stop.Token) is { Count: > 0 } chunk)
                await chunks.Writer.WriteAsync(Task.Run(() => AnswerAsync(chunk, answer, stop.Token), stop.Token), stop.Token);
        }
        catch (OperationCanceledException) when (writing.IsFaulted)
        {
            // The writer failed and stopped us: its failure is the one to report.
        }
        finally
        {
            chunks.Writer.Complete();
        }

        await writing;
    }

    private static async Task<Chunk> AnswerAsync(
        List<Line> lines, Func<Line, JsonBytes, bool> answer, CancellationToken cancellationToken)
    {
        using var place = await BatchGate.EnterAsync(cancellationToken);
        var text = new JsonBytes();
        var refused = 0;
        foreach (var line in lines)
        {
            if (!answer(line, text))
                refused++;
            text.Write("\n"u8);
            line.Return();
        }

        return new(text, lines.Count, refused);
    }

    private static async Task WriteAsync(
        ChannelReader<Task<Chunk>> chunks, PipeWriter output, Action<long, long> progress, CancellationTokenSource stop)
    {
        try
        {
            long answered = 0, refused = 0;
            await foreach (var task in chunks.ReadAllAsync(stop.Token))
            {
                var chunk = await task;
                using var text = chunk.Text;
                answered += chunk.Lines;
                refused += chunk.Refused;
                await output.WriteAsync(text.Written, stop.Token);
                progress(answered, refused);
            }
        }
        catch
        {
            await stop.CancelAsync();
            throw;
        }
    }

    private sealed record Chunk(JsonBytes Text, int Lines, int Refused);
}
