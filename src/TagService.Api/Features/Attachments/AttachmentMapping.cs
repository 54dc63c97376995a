using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;
using TagService.Api.Features.RangeMeasurements;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Attachments;
using TagService.Domain.Fitting;
using TagService.Storage.Attachments;

namespace TagService.Api.Features.Attachments;

/// <summary>From the domain to the wire.</summary>
internal static class AttachmentMapping
{
    /// <summary>Nobody has said anything of it yet.</summary>
    public static Attachment Blank { get; } = new() { Id = default, Tag = "", AssetId = "", RecordedAt = default };

    /// <summary>What the parameter include is described as.</summary>
    public const string IncludeDescription = "fitter: shows fitterId. Left out by default: it points to a person.";

    public static AttachmentResponse ToResponse(this StoredAttachment stored, bool withFitter)
    {
        var a = stored.Attachment;
        var (start, end) = (a.Start, a.End?.At ?? Moment.Unknown);
        return new()
        {
            Id = a.Id, AssetId = a.AssetId, Identity = a.Tag, EpcHex = stored.Tag.EpcHex, TidHex = a.TidHex, TagClassId = a.TagClassId, AttachmentMethod = a.MethodId,
            StartAt = start.Exact, StartNotBefore = start.Exact is null ? start.NotBefore : null, StartNotAfter = start.Exact is null ? start.NotAfter : null,
            EndAt = end.Exact, EndNotBefore = end.Exact is null ? end.NotBefore : null, EndNotAfter = end.Exact is null ? end.NotAfter : null,
            EndReason = a.End?.ReasonId, EndKind = a.End?.Kind, TakenOver = a.TakenOver, RecordedAt = a.RecordedAt, LabourMinutes = a.LabourMinutes,
            TagBatchId = a.TagBatchId, FitterId = withFitter ? a.FitterId : null, MeasuredRangeM = a.Check.MeasuredRangeM, AnsweredAtM = a.Check.AnsweredAtM,
            SilentAtM = a.Check.SilentAtM, CheckEirpDbm = a.Check.EirpDbm, CheckRegion = a.Check.RegionId, CheckReaderKind = a.Check.ReaderKind,
            CheckSite = a.Check.SiteId, PhotoReference = a.PhotoReference, Note = a.Note, ETag = stored.EntityTag().ToString(),
        };
    }

    /// <summary>What a check is worth; null where there was none or nobody looked.</summary>
    public static CheckRangeResponse? ToResponse(this CheckFinding? finding) => finding switch
    {
        CheckFinding.Usable { Measurement: var m } => new(true, m.TagClassId, m.MaterialId, RangeMeasurementMapping.FindingOf(m.Kind), null, null, null),
        CheckFinding.NotUsable not => new(false, null, null, null, not.Field, not.Because, not.Accepted),
        _ => null,
    };

    /// <summary>Strong validator of the attachment's state.</summary>
    public static EntityTagHeaderValue EntityTag(this StoredAttachment stored) => ItemRequest.Tag(stored.Version);

    /// <summary>Members in which two states differ.</summary>
    public static IReadOnlyList<FieldChangeResponse> Differences(AttachmentResponse before, AttachmentResponse after)
    {
        JsonObject was = Json(before), now = Json(after);
        return
        [
            .. from name in was.Select(m => m.Key).Union(now.Select(m => m.Key))
               where name != "eTag" && !JsonNode.DeepEquals(was[name], now[name])
               select new FieldChangeResponse(name, was[name]?.ToString(), now[name]?.ToString()),
        ];
    }

    /// <summary>The parameter include.</summary>
    public static ApiProblem? ReadInclude(string? include, out bool withFitter)
    {
        withFitter = include == "fitter";
        return include is null or "" or "fitter"
            ? null
            : new(ProblemTypes.InvalidRequest, "The query parameter include has a word that is not known.", [new("include", JsonText.Clip(include), "Not a known word of include.", "fitter")]);
    }

    /// <summary>Puts the entity tag of the answer into its header; an answer given again has the one it had.</summary>
    public static TResult WithETag<TResult>(this TResult result, HttpContext context, Func<object, AttachmentResponse?> attachment)
        where TResult : INestedHttpResult
    {
        if (result.Result is IValueHttpResult { Value: { } value } && attachment(value) is { } shown)
            context.Response.Headers.ETag = shown.ETag;
        return result;
    }

    private static JsonObject Json(AttachmentResponse response) => (JsonObject)JsonSerializer.SerializeToNode(response, WireJson.Options)!;
}
