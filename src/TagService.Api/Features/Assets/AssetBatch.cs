using System.Buffers;
using System.Text.Json;
using System.Threading.Channels;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using Npgsql;
using TagService.Api.Http.Json;
using TagService.Api.Http.Ndjson;
using TagService.Api.Http.Problems;
using TagService.Storage.Bulk;

namespace TagService.Api.Features.Assets;

/// <summary>
/// Lines in, answers out, in order and in constant memory: lines are read and parsed ahead while the database writes what came before;
/// it takes whatever is ready, up to a chunk, so that a slow sender is answered at once and a fast one in large transactions.
/// </summary>
internal sealed class AssetBatch(HttpContext context, AssetBulkWriter writer, bool onlyRefused, ILogger log)
{
    private const int MaxFieldNames = 100;

    private readonly Dictionary<string, long> _fields = new(StringComparer.Ordinal);
    private AssetWriteSummary _summary = AssetWriteSummary.None;
    private long _refused;
    private bool _hasWritten;

    /// <summary>Runs until the input ends.</summary>
    /// <param name="input">Parts of the input, in order; called from several threads.</param>
    /// <param name="stop">Ends the input when writing fails.</param>
    public async Task RunAsync(IAsyncEnumerable<Func<AssetLine[]>> input, CancellationTokenSource stop)
    {
        var parts = Channel.CreateBounded<Task<AssetLine[]>>(
            new BoundedChannelOptions(AssetBulkWriter.ChunkSize / AssetLines.LinesPerPart) { SingleReader = true, SingleWriter = true });
        var writing = WriteAsync(parts.Reader, stop);
        try
        {
            await foreach (var part in input.WithCancellation(stop.Token))
                await parts.Writer.WriteAsync(Task.Run(() => ParseAsync(part, stop.Token), stop.Token), stop.Token);
        }
        catch (OperationCanceledException) when (writing.IsCompleted)
        {
            // The writer ended early and stopped us: how it ended is what counts.
        }
        finally
        {
            parts.Writer.Complete();
        }

        await writing;
    }

    private static async Task<AssetLine[]> ParseAsync(Func<AssetLine[]> part, CancellationToken cancellationToken)
    {
        using var place = await BatchGate.EnterAsync(cancellationToken);
        return part();
    }

    private async Task WriteAsync(ChannelReader<Task<AssetLine[]>> parts, CancellationTokenSource stop)
    {
        try
        {
            var chunk = new List<AssetLine>();
            while (await parts.WaitToReadAsync(stop.Token))
            {
                chunk.Clear();
                while (chunk.Count <= AssetBulkWriter.ChunkSize - AssetLines.LinesPerPart && parts.TryRead(out var part))
                    chunk.AddRange(await part);
                if (!await AnsweredAsync(chunk, stop.Token))
                {
                    await stop.CancelAsync();
                    return;
                }
            }

            var summary = new AssetBatchSummaryResponse(
                _summary.Created + _summary.Changed + _summary.Unchanged + _refused, _summary.Created, _summary.Changed, _summary.Unchanged, _refused, _fields);
            await SendAsync(
                json =>
                {
                    JsonSerializer.Serialize(json, new AssetBatchLineResponse { Summary = summary }, WireJson.Options);
                    EndLine(json);
                },
                stop.Token);
            log.LogInformation(
                "Batch of assets: {Created} new, {Changed} changed, {Unchanged} unchanged, {Refused} refused", summary.Created, summary.Changed, summary.Unchanged, summary.Refused);
        }
        catch
        {
            await stop.CancelAsync();
            throw;
        }
    }

    /// <summary>Writes a chunk and answers its lines; false when the database failed after earlier lines were answered.</summary>
    private async Task<bool> AnsweredAsync(List<AssetLine> chunk, CancellationToken cancellationToken)
    {
        IReadOnlyList<AssetWritten> written;
        try
        {
            written = await writer.WriteAsync([.. chunk.Select(l => l.Draft.Content).OfType<AssetToLoad>()], AssetSources.Push, cancellationToken);
        }
        catch (NpgsqlException e) when (_hasWritten)
        {
            log.LogError(e, "A batch of assets ended before line {Line}: the database failed", chunk[0].Number);
            var problem = new ApiProblem(ProblemTypes.Unavailable, $"The database failed. Lines before {chunk[0].Number} are written, later ones need not be: send them again.");
            await SendAsync(
                json =>
                {
                    Refuse(json, chunk[0].Number, problem);
                    EndLine(json);
                },
                cancellationToken);
            return false;
        }

        _hasWritten = true;
        await SendAsync(
            json =>
            {
                var next = 0;
                foreach (var line in chunk)
                {
                    if (line.Draft.Problem is { } problem)
                    {
                        _refused++;
                        Refuse(json, line.Number, problem);
                        EndLine(json);
                    }
                    else if (Count(line, written[next++]) is var answer && (!onlyRefused || answer.Notices is not null))
                    {
                        JsonSerializer.Serialize(json, answer, WireJson.Options);
                        EndLine(json);
                    }
                }
            },
            cancellationToken);
        return true;
    }

    private AssetBatchLineResponse Count(AssetLine line, AssetWritten written)
    {
        _summary = _summary.Plus(written.Outcome);
        foreach (var field in line.Draft.OwnFields)
        {
            var name = field.Pointer["#/".Length..];
            if (_fields.TryGetValue(name, out var lines) || _fields.Count < MaxFieldNames)
                _fields[name] = lines + 1;
        }

        var answer = new AssetBatchLineResponse { Line = line.Number, AssetId = written.AssetId, Outcome = written.Outcome };
        return written.BroughtBack
            ? answer with { Notices = [AssetMapping.BroughtBack("The asset was retired; sent without retired it is in service again.")] }
            : answer;
    }

    private void EndLine(Utf8JsonWriter json)
    {
        json.Flush();
        json.Reset();
        context.Response.BodyWriter.Write("\n"u8);
    }

    private void Refuse(Utf8JsonWriter json, long line, ApiProblem problem) =>
        JsonSerializer.Serialize(json, problem.ToResponse(context) with { Line = line }, WireJson.Options);

    private async Task SendAsync(Action<Utf8JsonWriter> write, CancellationToken cancellationToken)
    {
        await using (var json = new Utf8JsonWriter(context.Response.BodyWriter, new JsonWriterOptions { Encoder = WireJson.Options.Encoder }))
            write(json);
        // Waits for a caller who reads slowly, and with it everything before.
        await context.Response.BodyWriter.FlushAsync(cancellationToken);
    }
}
