using System.Buffers;
using System.Text.Json;
using Microsoft.AspNetCore.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Attachments;
using TagService.Domain.Fitting;
using TagService.Storage.Attachments;

namespace TagService.Api.Features.Attachments;

/// <summary>Writes the answers of a batch and counts them.</summary>
/// <param name="context">The request.</param>
/// <param name="onlyRefused">Leaves out the answers to lines that were taken.</param>
internal sealed class BatchAnswers(HttpContext context, bool onlyRefused)
{
    private static readonly JsonWriterOptions WriterOptions = new() { Encoder = WireJson.Options.Encoder };
    private readonly ArrayBufferWriter<byte> _text = new();
    private long _started;
    private long _ended;
    private long _known;
    private long _refused;

    /// <summary>Answers a line by what became of it.</summary>
    /// <param name="line">Number of the line.</param>
    /// <param name="result">What became of it.</param>
    /// <param name="tagBatches">Ids of tag batches, where the result is that one is unknown.</param>
    public void Add(long line, BatchResult result, IReadOnlyCollection<string> tagBatches)
    {
        switch (result)
        {
            case BatchResult.Taken { Recording: Recording.Started started, Check: var check }:
                _started++;
                Write(line, AttachmentLineResult.Started, started.Attachment, started.Previous, check);
                break;
            case BatchResult.Taken { Recording: Recording.Ended ended }:
                _ended++;
                Write(line, AttachmentLineResult.Ended, ended.Attachment, null);
                break;
            case BatchResult.Taken { Recording: Recording.Known known }:
                _known++;
                Write(line, AttachmentLineResult.Known, known.Attachment, null);
                break;
            case BatchResult.Taken { Recording: Recording.Refused refused }:
                Refuse(line, refused.Refusal.ToProblem(nested: false));
                break;
            case BatchResult.NoSuchAsset:
                Refuse(line, AttachmentProblems.NoSuchAsset("With createAssets=true thin records of new assets are made."));
                break;
            case BatchResult.NoSuchTagBatch unknown:
                Refuse(line, TagBatchNames.Unknown(unknown.Id, tagBatches));
                break;
            default:
                throw new InvalidOperationException($"A line of a batch came to {result}.");
        }
    }

    /// <summary>Answers a line that is not taken.</summary>
    public void Refuse(long line, ApiProblem problem)
    {
        _refused++;
        Write(problem.ToResponse(context) with { Line = line });
    }

    /// <summary>Sends what is answered so far.</summary>
    public async Task FlushAsync(CancellationToken cancellationToken)
    {
        if (_text.WrittenCount == 0)
            return;
        await context.Response.BodyWriter.WriteAsync(_text.WrittenMemory, cancellationToken);
        _text.ResetWrittenCount();
    }

    /// <summary>Sends the summary.</summary>
    public async Task<AttachmentBatchSummary> EndAsync(CancellationToken cancellationToken)
    {
        var summary = new AttachmentBatchSummary(_started + _ended + _known + _refused, _started, _ended, _known, _refused);
        Write(new AttachmentLineResponse { Summary = summary });
        await FlushAsync(cancellationToken);
        return summary;
    }

    private void Write(long line, AttachmentLineResult result, Attachment attachment, Attachment? previous, CheckFinding? check = null)
    {
        if (!onlyRefused)
            Write(new AttachmentLineResponse { Line = line, Result = result, AttachmentId = attachment.Id, PreviousId = previous?.Id, CheckRange = check.ToResponse() });
    }

    private void Write<T>(T answer)
    {
        using (var json = new Utf8JsonWriter(_text, WriterOptions))
            JsonSerializer.Serialize(json, answer, WireJson.Options);
        _text.Write("\n"u8);
    }
}
