using System.Text.Json;
using Microsoft.AspNetCore.Http;

namespace TagService.Api.Http.Json;

/// <summary>Bodies in which null means something else than an absent member (JSON Merge Patch, RFC 7396).</summary>
internal static class MergePatch
{
    /// <summary>Reads a patch of one object without nested ones.</summary>
    /// <returns>The values, and the names of members that are null.</returns>
    public static async ValueTask<(JsonBodyResult<T> Body, IReadOnlySet<string> Cleared)> ReadAsync<T>(HttpContext context, CancellationToken cancellationToken)
        where T : class
    {
        var cleared = new HashSet<string>(StringComparer.Ordinal);
        // Kept in memory whole, to be read a second time: no more than a single record may have.
        context.Request.EnableBuffering(JsonReadOptions.SingleRecordBytes + 1, long.MaxValue);
        var body = await JsonBody.ReadAsync<T>(context, null, cancellationToken);
        if (!body.IsRead)
            return (body, cleared);
        context.Request.Body.Position = 0;
        using var document = await JsonDocument.ParseAsync(context.Request.Body, default, cancellationToken);
        foreach (var member in document.RootElement.EnumerateObject().Where(m => m.Value.ValueKind == JsonValueKind.Null))
            cleared.Add(member.Name);
        return (body, cleared);
    }
}
