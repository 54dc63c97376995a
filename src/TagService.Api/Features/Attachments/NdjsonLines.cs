using System.Runtime.CompilerServices;
using Microsoft.AspNetCore.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.Ndjson;

namespace TagService.Api.Features.Attachments;

/// <summary>A batch in NDJSON.</summary>
internal static class NdjsonLines
{
    /// <summary>Lines as they arrive, some at a time.</summary>
    public static async IAsyncEnumerable<List<BatchLine>> ReadAsync(
        HttpRequest request, JsonReadOptions options, int most, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        var lines = new LineReader(request.BodyReader, options.MaxBytes);
        while (await lines.ReadAsync(most, cancellationToken) is { Count: > 0 } some)
            yield return some.ConvertAll(line => Read(line, options));
    }

    private static BatchLine Read(Line line, JsonReadOptions options)
    {
        try
        {
            if (line.TooLong)
                return new(line.Number, null, JsonRequest.TooLarge(options));
            var body = JsonBody.Read<AttachmentLineRequest>(line.Text, options);
            return new(line.Number, body.Value, body.Problem);
        }
        finally
        {
            line.Return();
        }
    }
}
