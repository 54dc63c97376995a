using System.Globalization;

namespace TagService.Domain.Attachments;

/// <summary>
/// One line of a batch: a pair found existing, a fitter's result, an end. Batches are sent again, whole or in part, and what was
/// recorded may have been corrected meanwhile: a line that was taken before changes nothing, whatever has become of it.
/// </summary>
/// <param name="Key">Made from the line's content: the same line has the same key.</param>
/// <param name="Attachment">What the line says, under the id it gets if it is new.</param>
/// <param name="Previous">The attachment that it ends; null: none.</param>
public sealed record RecordedLine(Guid Key, Attachment Attachment, PreviousEnd? Previous)
{
    /// <summary>The attachment that the line was recorded in before, whatever has become of it; null when it is new.</summary>
    /// <param name="ledger">What is recorded.</param>
    public Attachment? TakenBefore(AttachmentLedger ledger)
    {
        ArgumentNullException.ThrowIfNull(ledger);
        return ledger.HistoryOf(Attachment.Tag).All.FirstOrDefault(a => a.StartedByLine == Key || a.EndedByLine == Key);
    }

    /// <summary>Records the line.</summary>
    /// <param name="ledger">What is recorded; changed by it.</param>
    /// <param name="now">The time of recording.</param>
    public Recording TakeInto(AttachmentLedger ledger, DateTimeOffset now)
    {
        if (TakenBefore(ledger) is { } taken)
            return new Recording.Known(taken);
        // What it may be about: the same pair with the start it names, or any if it names none; one that counts comes last.
        var same = ledger.HistoryOf(Attachment.Tag).All.Where(a => a.AssetId == Attachment.AssetId && (Attachment.Start.IsUnknown || a.Start == Attachment.Start))
            .OrderByDescending(a => a.IsVoid).ToList();
        if (same.Count == 0 || (Previous is not null && Attachment.Start.IsUnknown))
            return Anew(ledger, now);
        if (Previous is not null)
            return KnownOr(same[^1]);
        var open = same.Find(a => a.IsOpen);
        if (Attachment.End is { } end)
        {
            if (same.FindLast(a => a.End == end) is { } known)
                return KnownOr(known);
            return open is null ? Otherwise(same[^1], "endReason", end.ReasonId, $"{same[^1].End!.ReasonId}, {same[^1].End!.At}")
                : Difference(open) is { } other ? new Recording.Refused(other)
                : ledger.End(open, end, Key, now);
        }

        if (open is not null)
            return KnownOr(open);
        var last = same[^1];
        return last.IsVoid ? Otherwise(last, "assetId", Attachment.AssetId, "taken back as never happened")
            : Attachment.Start.IsUnknown ? Otherwise(last, "startNotBefore", null, $"ended {last.End!.At}; say since when it is there again")
            : KnownOr(last);
    }

    private Recording Anew(AttachmentLedger ledger, DateTimeOffset now) =>
        ledger.Start(Attachment with { StartedByLine = Key }, Previous, now);

    private Recording KnownOr(Attachment recorded) =>
        Difference(recorded) is { } difference ? new Recording.Refused(difference) : new Recording.Known(recorded);

    private static Recording.Refused Otherwise(Attachment recorded, string field, string? value, string how) => new(
        new AttachmentRefusal.RecordedOtherwise(
            field, value, $"This tag on {recorded.AssetId} (start {recorded.Start}) is recorded otherwise: {how} (attachment {recorded.Id}).",
            $"a correction of the attachment {recorded.Id}, or another start", recorded));

    /// <summary>The first value that the line states and that is recorded otherwise.</summary>
    private AttachmentRefusal.RecordedOtherwise? Difference(Attachment recorded)
    {
        (string Field, object? Said, object? Recorded)[] values =
        [
            ("tagClassId", Attachment.TagClassId, recorded.TagClassId), ("attachmentMethod", Attachment.MethodId, recorded.MethodId),
            ("tidHex", Attachment.TidHex, recorded.TidHex), ("labourMinutes", Attachment.LabourMinutes, recorded.LabourMinutes),
            ("tagBatchId", Attachment.TagBatchId, recorded.TagBatchId), ("fitterId", Attachment.FitterId, recorded.FitterId),
            ("measuredRangeM", Attachment.Check.MeasuredRangeM, recorded.Check.MeasuredRangeM),
            ("answeredAtM", Attachment.Check.AnsweredAtM, recorded.Check.AnsweredAtM), ("silentAtM", Attachment.Check.SilentAtM, recorded.Check.SilentAtM),
            ("checkEirpDbm", Attachment.Check.EirpDbm, recorded.Check.EirpDbm), ("checkRegion", Attachment.Check.RegionId, recorded.Check.RegionId),
            ("checkReaderKind", Attachment.Check.ReaderKind, recorded.Check.ReaderKind), ("checkSite", Attachment.Check.SiteId, recorded.Check.SiteId),
            ("photoReference", Attachment.PhotoReference, recorded.PhotoReference), ("note", Attachment.Note, recorded.Note),
        ];
        var (field, said, _) = values.FirstOrDefault(v => v.Said is not null && !v.Said.Equals(v.Recorded));
        return field is null ? null : new(
            field, Convert.ToString(said, CultureInfo.InvariantCulture), $"The attachment {recorded.Id} is recorded already, with another {field}.",
            $"what is recorded, or a correction of the attachment {recorded.Id}", recorded);
    }
}
