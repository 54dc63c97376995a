using System.Text.Json.Serialization;
using TagService.Domain.Recommendations;
using TagService.Storage.Changes;

namespace TagService.Storage.Tables;

/// <summary>One tag on one asset from a moment until its end; see <see cref="Domain.Attachments.Attachment"/>.</summary>
public sealed class AttachmentRow : IAudited
{
    /// <summary>The tag. First in the primary key: rows of one tag stay together.</summary>
    public required long TagId { get; init; }

    /// <summary>Its id.</summary>
    public required Guid Id { get; init; }

    /// <summary>The asset.</summary>
    public required string AssetId { get; set; }

    /// <summary>Tag class.</summary>
    public string? TagClassId { get; set; }

    /// <summary>Way of fixing.</summary>
    public string? MethodId { get; set; }

    /// <summary>Earliest start.</summary>
    public DateTimeOffset? StartNotBefore { get; set; }

    /// <summary>Latest start; equal to the earliest where it is known exactly.</summary>
    public DateTimeOffset? StartNotAfter { get; set; }

    /// <summary>Earliest end.</summary>
    public DateTimeOffset? EndNotBefore { get; set; }

    /// <summary>Latest end; equal to the earliest where it is known exactly.</summary>
    public DateTimeOffset? EndNotAfter { get; set; }

    /// <summary>Why it ended; null while nobody knows of an end.</summary>
    public string? EndReason { get; set; }

    /// <summary>The reason says that it never was: it counts nowhere.</summary>
    public bool IsVoid { get; set; }

    /// <summary>Found in place when recorded.</summary>
    public bool TakenOver { get; set; }

    /// <summary>When it was recorded.</summary>
    public required DateTimeOffset RecordedAt { get; init; }

    /// <summary>Labour of fitting in minutes.</summary>
    public double? LabourMinutes { get; set; }

    /// <summary>Batch the tag came from.</summary>
    public string? TagBatchId { get; set; }

    /// <summary>Who fitted it; opaque.</summary>
    public string? FitterId { get; set; }

    /// <summary>Range measured at fitting, m.</summary>
    public double? MeasuredRangeM { get; set; }

    /// <summary>Distance at which it answered at fitting, m.</summary>
    public double? AnsweredAtM { get; set; }

    /// <summary>Distance at which it was silent at fitting, m.</summary>
    public double? SilentAtM { get; set; }

    /// <summary>Power of that check, dBm EIRP.</summary>
    public double? CheckEirpDbm { get; set; }

    /// <summary>Radio region of that check.</summary>
    public string? CheckRegion { get; set; }

    /// <summary>Kind of reader of that check.</summary>
    public ReaderKind? CheckReaderKind { get; set; }

    /// <summary>Kind of place of that check.</summary>
    public string? CheckSite { get; set; }

    /// <summary>Address or key of a photograph.</summary>
    public string? PhotoReference { get; set; }

    /// <summary>TID at fitting, upper-case hexadecimal.</summary>
    public string? TidHex { get; set; }

    /// <summary>Remark.</summary>
    public string? Note { get; set; }

    /// <summary>Key of the batch line that recorded it.</summary>
    public Guid? StartedByLine { get; set; }

    /// <summary>Key of the batch line that ended it.</summary>
    public Guid? EndedByLine { get; set; }

    /// <summary>PostgreSQL's xmin: changes with every update of the row.</summary>
    [JsonIgnore]
    public uint Version { get; private set; }

    string IAudited.AuditKind => AuditKinds.Attachment;

    string IAudited.AuditKey => Id.ToString();
}
