using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Attachments;
using TagService.Domain.Radio;
using TagService.Domain.Suitability;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.Attachments;

/// <summary>Turns what is sent into what is recorded: names looked up, times put together, what cannot be said refused with its place.</summary>
/// <param name="snapshot">The catalogue.</param>
internal sealed class AttachmentReader(CatalogueSnapshot snapshot)
{
    private readonly List<ProblemError> _unknown = [];
    private readonly List<ProblemError> _contradictions = [];

    /// <summary>Lays what is sent over an attachment.</summary>
    /// <param name="basis">What is known so far.</param>
    /// <param name="sent">What is sent.</param>
    /// <param name="cleared">Names of members sent as null.</param>
    public (Attachment Attachment, ApiProblem? Problem) Lay(Attachment basis, AttachmentFields sent, IReadOnlySet<string> cleared)
    {
        var check = new FittingCheck
        {
            MeasuredRangeM = Of("measuredRangeM", sent.MeasuredRangeM, basis.Check.MeasuredRangeM),
            AnsweredAtM = Of("answeredAtM", sent.AnsweredAtM, basis.Check.AnsweredAtM),
            SilentAtM = Of("silentAtM", sent.SilentAtM, basis.Check.SilentAtM),
            EirpDbm = Of("checkEirpDbm", sent.CheckEirpDbm, basis.Check.EirpDbm),
            RegionId = Of("checkRegion", RegionOf(sent.CheckRegion), basis.Check.RegionId),
            ReaderKind = Of("checkReaderKind", sent.CheckReaderKind, basis.Check.ReaderKind),
            SiteId = Of("checkSite", Known("checkSite", sent.CheckSite, "kind of place", RadioTables.Sites.Find(sent.CheckSite)?.Id, RadioTables.Sites.All.Select(s => s.Id)), basis.Check.SiteId),
        };
        var attachment = basis with
        {
            TagClassId = Of("tagClassId", ClassOf(sent.TagClassId), basis.TagClassId),
            MethodId = Of("attachmentMethod", MethodOf(sent.AttachmentMethod), basis.MethodId),
            Start = MomentOf("start", (sent.StartAt, sent.StartNotBefore, sent.StartNotAfter), basis.Start, cleared),
            End = EndOf(basis.End, sent, cleared),
            TakenOver = sent.TakenOver ?? (basis.TakenOver && !cleared.Contains("takenOver")),
            LabourMinutes = Of("labourMinutes", sent.LabourMinutes, basis.LabourMinutes),
            TagBatchId = Of("tagBatchId", sent.TagBatchId, basis.TagBatchId),
            FitterId = Of("fitterId", sent.FitterId, basis.FitterId),
            Check = check,
            PhotoReference = Of("photoReference", sent.PhotoReference, basis.PhotoReference),
            TidHex = Of("tidHex", sent.TidHex?.ToUpperInvariant(), basis.TidHex),
            Note = Of("note", sent.Note, basis.Note),
        };
        return (attachment, Problem);

        T? Of<T>(string name, T? value, T? known) => value ?? (cleared.Contains(name) ? default : known);
    }

    /// <summary>The end of an earlier attachment.</summary>
    /// <param name="reason">Why.</param>
    /// <param name="times">When: exactly, or bounds.</param>
    /// <param name="attachmentId">Which.</param>
    public (PreviousEnd? Previous, ApiProblem? Problem) Previous(
        string? reason, (DateTimeOffset? At, DateTimeOffset? NotBefore, DateTimeOffset? NotAfter) times, Guid? attachmentId)
    {
        var at = MomentOf("endPrevious", times, Moment.Unknown, new HashSet<string>());
        if (reason is null)
        {
            if (!at.IsUnknown || attachmentId is not null)
                _contradictions.Add(new("#/endPreviousReason", null, "An earlier attachment is to be ended without a reason.", "an id of /v1/attachment-end-reasons, for example not-known"));
            return (null, Problem);
        }

        var known = ReasonOf("endPreviousReason", reason);
        return (known is null ? null : new(attachmentId, at, known), Problem);
    }

    private ApiProblem? Problem => _unknown.Count > 0
        ? new(ProblemTypes.InvalidFields, $"A name is in none of the tables: {_unknown[0].Value}. {_unknown[0].Detail}", _unknown)
        : _contradictions.Count > 0 ? ApiProblem.Contradictory(_contradictions[0].Detail, _contradictions) : null;

    private AttachmentEnd? EndOf(AttachmentEnd? basis, AttachmentFields sent, IReadOnlySet<string> cleared)
    {
        var at = MomentOf("end", (sent.EndAt, sent.EndNotBefore, sent.EndNotAfter), basis?.At ?? Moment.Unknown, cleared);
        var timeSent = (sent.EndAt ?? sent.EndNotBefore ?? sent.EndNotAfter) is not null;
        var reason = sent.EndReason is not null ? ReasonOf("endReason", sent.EndReason) : cleared.Contains("endReason") ? null : basis?.ReasonId;
        if (reason is null && sent.EndReason is null && timeSent)
            _contradictions.Add(new("#/endReason", null, "There is a time of the end, but no reason.", "an id of /v1/attachment-end-reasons, for example not-known"));
        return reason is null ? null : new(at, reason);
    }

    /// <summary>An exact time replaces bounds; a bound replaces an exact time and leaves the other bound.</summary>
    private Moment MomentOf(
        string name, (DateTimeOffset? At, DateTimeOffset? NotBefore, DateTimeOffset? NotAfter) sent, Moment basis, IReadOnlySet<string> cleared)
    {
        if (sent.At is { } at)
        {
            if (sent.NotBefore is not null || sent.NotAfter is not null)
                _contradictions.Add(new($"#/{name}At", null, $"{name}At is exact, and bounds are sent too.", $"{name}At, or {name}NotBefore and {name}NotAfter"));
            return Moment.At(at);
        }

        if (basis.Exact is not null)
            return cleared.Contains($"{name}At") || (sent.NotBefore ?? sent.NotAfter) is not null ? Moment.Between(sent.NotBefore, sent.NotAfter) : basis;
        return Moment.Between(
            sent.NotBefore ?? (cleared.Contains($"{name}NotBefore") ? null : basis.NotBefore),
            sent.NotAfter ?? (cleared.Contains($"{name}NotAfter") ? null : basis.NotAfter));
    }

    private string? ClassOf(string? sent) => Known("tagClassId", sent, "tag class", sent is null ? null : snapshot.Find(sent)?.Id, snapshot.Context.Classes.Select(c => c.Id));

    private string? MethodOf(string? sent) =>
        Known("attachmentMethod", sent, "way of fixing", AttachmentMethods.Table.Find(sent)?.Id, AttachmentMethods.All.Select(m => m.Id));

    private string? RegionOf(string? sent) =>
        Known("checkRegion", sent, "radio region", sent is null ? null : RadioTables.RegionOf(sent)?.Id, RadioTables.Regions.All.Select(r => r.Id));

    private string? ReasonOf(string name, string sent) =>
        Known(name, sent, "reason for an end", EndReasons.Table.Find(sent)?.Id, EndReasons.All.Select(r => r.Id));

    private string? Known(string member, string? sent, string what, string? found, IEnumerable<string> known)
    {
        if (sent is null || found is not null)
            return found;
        var names = known.ToArray();
        var near = NearestName.Of(sent, names);
        _unknown.Add(new(
            $"#/{member}", JsonText.Clip(sent), near is null ? $"Not a known {what}." : $"Not a known {what}; {near} is the nearest.",
            names.Length <= 40 ? string.Join(", ", names) : $"one of the {names.Length} ids of that table"));
        return null;
    }
}
