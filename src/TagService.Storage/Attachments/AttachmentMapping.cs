using TagService.Domain.Attachments;
using TagService.Storage.Tables;

namespace TagService.Storage.Attachments;

/// <summary>From rows to the domain and back.</summary>
internal static class AttachmentMapping
{
    public static Attachment ToAttachment(this AttachmentRow row, string identity) => new()
    {
        Id = row.Id, Tag = identity, AssetId = row.AssetId, TagClassId = row.TagClassId, MethodId = row.MethodId,
        Start = Moment.Between(row.StartNotBefore, row.StartNotAfter),
        End = row.EndReason is { } reason ? new(Moment.Between(row.EndNotBefore, row.EndNotAfter), reason) : null,
        RecordedAt = row.RecordedAt, TakenOver = row.TakenOver, LabourMinutes = row.LabourMinutes, TagBatchId = row.TagBatchId, FitterId = row.FitterId,
        Check = new()
        {
            MeasuredRangeM = row.MeasuredRangeM, AnsweredAtM = row.AnsweredAtM, SilentAtM = row.SilentAtM, EirpDbm = row.CheckEirpDbm,
            RegionId = row.CheckRegion, ReaderKind = row.CheckReaderKind, SiteId = row.CheckSite,
        },
        PhotoReference = row.PhotoReference, TidHex = row.TidHex, Note = row.Note, StartedByLine = row.StartedByLine, EndedByLine = row.EndedByLine,
    };

    public static AttachmentRow ToRow(this Attachment attachment, long tagId)
    {
        var row = new AttachmentRow { TagId = tagId, Id = attachment.Id, AssetId = attachment.AssetId, RecordedAt = attachment.RecordedAt };
        row.Apply(attachment);
        return row;
    }

    public static void Apply(this AttachmentRow row, Attachment attachment)
    {
        (row.AssetId, row.TagClassId, row.MethodId) = (attachment.AssetId, attachment.TagClassId, attachment.MethodId);
        (row.StartNotBefore, row.StartNotAfter) = (attachment.Start.NotBefore, attachment.Start.NotAfter);
        (row.EndNotBefore, row.EndNotAfter) = (attachment.End?.At.NotBefore, attachment.End?.At.NotAfter);
        (row.EndReason, row.IsVoid, row.TakenOver) = (attachment.End?.ReasonId, attachment.IsVoid, attachment.TakenOver);
        (row.LabourMinutes, row.TagBatchId, row.FitterId) = (attachment.LabourMinutes, attachment.TagBatchId, attachment.FitterId);
        var check = attachment.Check;
        (row.MeasuredRangeM, row.AnsweredAtM, row.SilentAtM) = (check.MeasuredRangeM, check.AnsweredAtM, check.SilentAtM);
        (row.CheckEirpDbm, row.CheckRegion, row.CheckReaderKind, row.CheckSite) = (check.EirpDbm, check.RegionId, check.ReaderKind, check.SiteId);
        (row.PhotoReference, row.TidHex, row.Note) = (attachment.PhotoReference, attachment.TidHex, attachment.Note);
        (row.StartedByLine, row.EndedByLine) = (attachment.StartedByLine, attachment.EndedByLine);
    }
}
