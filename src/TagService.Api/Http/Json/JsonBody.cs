using System.Buffers;
using System.Collections.Frozen;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Microsoft.AspNetCore.Http;
using TagService.Api.Http.Problems;

namespace TagService.Api.Http.Json;

/// <summary>
/// Reads request bodies strictly. The happy path is one pass of the serializer and one compiled check of ranges;
/// only a refused body is walked again, to say all that is wrong with it.
/// </summary>
public static class JsonBody
{
    internal static readonly IReadOnlyDictionary<string, JsonElement> NoMembers = FrozenDictionary<string, JsonElement>.Empty;

    /// <summary>Reads the request's body; the problem is to be returned as the answer.</summary>
    public static async ValueTask<JsonBodyResult<T>> ReadAsync<T>(
        HttpContext context, JsonReadOptions? options = null, CancellationToken cancellationToken = default)
        where T : class
    {
        options ??= JsonReadOptions.Default;
        if (JsonRequest.Refusal(context.Request, options) is { } refusal)
            return new(refusal);
        if (JsonShape.Of(typeof(T)).WelcomesOthers && JsonRequest.PrefersStrict(context))
            options = options with { RefuseOtherMembers = true };

        var pipe = context.Request.BodyReader;
        while (true)
        {
            var read = await pipe.ReadAsync(cancellationToken);
            if (read.Buffer.Length > options.MaxBytes)
            {
                pipe.AdvanceTo(read.Buffer.Start, read.Buffer.End);
                return new(JsonRequest.TooLarge(options));
            }

            if (read.IsCompleted)
            {
                var result = Read<T>(read.Buffer, options);
                pipe.AdvanceTo(read.Buffer.End);
                return result;
            }

            pipe.AdvanceTo(read.Buffer.Start, read.Buffer.End);
        }
    }

    /// <summary>Reads one value, for example one line of NDJSON.</summary>
    public static JsonBodyResult<T> Read<T>(in ReadOnlySequence<byte> json, JsonReadOptions options)
        where T : class
    {
        if (json.IsSingleSegment)
            return Read<T>(json.FirstSpan, options);
        var whole = ArrayPool<byte>.Shared.Rent((int)json.Length);
        try
        {
            json.CopyTo(whole);
            return Read<T>(whole.AsSpan(0, (int)json.Length), options);
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(whole);
        }
    }

    /// <inheritdoc cref="Read{T}(in ReadOnlySequence{byte}, JsonReadOptions)"/>
    public static JsonBodyResult<T> Read<T>(ReadOnlySpan<byte> json, JsonReadOptions options)
        where T : class
    {
        // RFC 8259, section 8.1: a byte order mark may be ignored, and some editors write one.
        if (json.StartsWith("\uFEFF"u8))
            json = json[3..];
        if (JsonText.IsSound(json) && Happy<T>(json, options, out var others) is { } value)
            return new(value, others);
        return new(JsonDiagnosis.Of(json, JsonShape.Of(typeof(T)), options) ?? Unexplained);
    }

    /// <summary>The known name nearest to one that <typeparamref name="T"/> does not have at its top level, or null.</summary>
    public static string? NearestKnownName<T>(string name) => NearestName.Of(name, JsonShape.Of(typeof(T)).Members.Keys);

    private static ApiProblem Unexplained =>
        new(ProblemTypes.InvalidFields, "The body is JSON, but not what this operation takes.");

    private static T? Happy<T>(ReadOnlySpan<byte> json, JsonReadOptions options, out IReadOnlyDictionary<string, JsonElement> others)
        where T : class
    {
        others = NoMembers;
        try
        {
            var value = JsonSerializer.Deserialize(json, Of<T>.Info);
            if (value is null || !CompiledCheck<T>.Fits(value))
                return null;
            if (Of<T>.Others is { } get && get(value) is IReadOnlyDictionary<string, JsonElement> { Count: > 0 } found)
            {
                others = found;
                return OthersFit(found.Keys, JsonShape.Of(typeof(T)), options) ? value : null;
            }

            return value;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static bool OthersFit(IEnumerable<string> names, JsonShape shape, JsonReadOptions options) =>
        !options.RefuseOtherMembers && names.All(n => !shape.Places.ContainsKey(n) || options.NotMisplaced.Contains(n));

    private static class Of<T>
        where T : class
    {
        public static readonly JsonTypeInfo<T> Info = (JsonTypeInfo<T>)WireJson.Options.GetTypeInfo(typeof(T));

        /// <summary>Getter of the member that collects others; a <c>Dictionary&lt;string, JsonElement&gt;</c>.</summary>
        public static readonly Func<object, object?>? Others = Info.Properties.FirstOrDefault(p => p.IsExtensionData)?.Get;
    }
}
