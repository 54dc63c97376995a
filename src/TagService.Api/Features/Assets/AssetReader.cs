using TagService.Api.Features.Recommendations;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Words;
using TagService.Storage.Bulk;

namespace TagService.Api.Features.Assets;

/// <summary>An asset as it was sent: its content, or the problem with it.</summary>
/// <param name="Content">What to keep.</param>
/// <param name="OwnFields">Names of the register's own fields at the top level, with what to say of each.</param>
/// <param name="Problem">Why it cannot be kept.</param>
internal sealed record AssetDraft(AssetToLoad? Content, IReadOnlyList<NoticeResponse> OwnFields, ApiProblem? Problem)
{
    public static implicit operator AssetDraft(ApiProblem problem) => new(null, [], problem);
}

/// <summary>From a request to an asset's content, with the checks that a recommendation makes and those of the database.</summary>
internal static class AssetReader
{
    /// <summary>Names that registers use for something of their own although a part of the record has them.</summary>
    public static JsonReadOptions ReadOptions { get; } = RecommendTagClass.ReadOptions with
    {
        NotMisplaced = new HashSet<string>([.. RecommendTagClass.ReadOptions.NotMisplaced, "at", "reason"], StringComparer.Ordinal),
    };

    private static readonly DateTimeOffset Oldest = new(1900, 1, 1, 0, 0, 0, TimeSpan.Zero);
    private static readonly TimeSpan ClockSkew = TimeSpan.FromHours(1);

    /// <summary>The key in a path: the server decodes every other escape but leaves %2F as it is.</summary>
    public static string KeyOf(string pathSegment) => pathSegment.Replace("%2F", "/", StringComparison.OrdinalIgnoreCase);

    /// <summary>The problem with a key in a path, or null.</summary>
    public static ApiProblem? OfKey(string key) => key.Length > AssetContent.MaxAssetIdLength || key.Contains('\0', StringComparison.Ordinal)
        ? new(ProblemTypes.InvalidRequest, FormattableString.Invariant($"An asset id has 1 to {AssetContent.MaxAssetIdLength} characters, none of them NUL; this one has {key.Length}."))
        : null;

    /// <summary>The problem with a text that is looked for, or null.</summary>
    public static ApiProblem? OfText(string name, string? text, int most)
    {
        if (text?.Length > most)
            return new(ProblemTypes.InvalidRequest, FormattableString.Invariant($"{name} has {text.Length} characters; accepted are at most {most}."));
        return text?.Contains('\0', StringComparison.Ordinal) ?? false
            ? new(ProblemTypes.InvalidRequest, $"{name} holds a NUL character, which nothing here holds.")
            : null;
    }

    /// <summary>Checks a request.</summary>
    /// <param name="request">The request.</param>
    /// <param name="key">Id of the asset from the address; null: the body has it.</param>
    /// <param name="now">Time of the request.</param>
    public static AssetDraft Read(AssetRequest request, string? key, DateTimeOffset now)
    {
        if (key is null && string.IsNullOrEmpty(request.AssetId))
            return Invalid("#/assetId", request.AssetId, "assetId is missing.", $"text of 1 to {AssetContent.MaxAssetIdLength} characters");
        if (key is not null && request.AssetId is { } sent && sent != key)
        {
            return ApiProblem.Contradictory(
                "assetId in the body is another than in the address.", new ProblemError("#/assetId", JsonText.Clip(sent), "It differs from the address.", JsonText.Clip(key)));
        }

        if (request.Retired?.At is { } at && (at < Oldest || at > now + ClockSkew))
            return Invalid("#/retired/at", at.ToString("O"), at < Oldest ? "It is before 1900." : "It is in the future.", "a time between 1900 and now");
        var record = request.ToRecommendationRequest(key ?? request.AssetId);
        var content = new AssetToLoad(record.ToAssetRecord(), request.LocationName)
        {
            RegisterTag = request.RegisterTag,
            Retired = request.Retired is { } retired ? new(retired.At is { } time ? Microseconds(time) : null, retired.Reason) : null,
        };
        if (ResourceId.FaultOf(content.Record.AssetId!) is { } unreachable)
            return Invalid("#/assetId", JsonText.Clip(content.Record.AssetId!), $"assetId: {unreachable}", ResourceId.Accepted);
        if (AssetContent.FaultOf(content) is { } fault)
            return Invalid("#", null, fault, "texts without the character U+0000");
        return RecordProblems.Find(content.Record) is { } problem ? problem : new AssetDraft(content, OwnFields((request.RegisterFields ?? []).Keys), null);
    }

    /// <summary>What to say of the register's own fields.</summary>
    public static IReadOnlyList<NoticeResponse> OwnFields(IEnumerable<string> names) =>
        [.. names.Select(RecommendationMapping.OwnField<AssetRequest>).Select(n => new NoticeResponse(n.Code, n.Pointer, n.Text))];

    /// <summary>The database keeps microseconds; what is shown now must be what is read later.</summary>
    public static DateTimeOffset Microseconds(DateTimeOffset time) => new(time.UtcTicks - (time.UtcTicks % TimeSpan.TicksPerMicrosecond), TimeSpan.Zero);

    private static ApiProblem Invalid(string pointer, string? value, string detail, string accepted) =>
        new(ProblemTypes.InvalidFields, detail, [new(pointer, value, detail, accepted)]);
}
