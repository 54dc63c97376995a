using TagService.Domain.Radio;

namespace TagService.Storage.Tables;

/// <summary>One range found in the field; rows are added, never changed. That of an attachment is replaced or taken away with it.</summary>
public sealed class RangeMeasurementRow
{
    /// <summary>Rising key; gaps are possible.</summary>
    public long Id { get; private set; }

    /// <summary>Tag class.</summary>
    public required string TagClassId { get; init; }

    /// <summary>Material at the surface.</summary>
    public required string MaterialId { get; init; }

    /// <summary>The finding with all its gaps filled.</summary>
    public required RangeMeasurement Measurement { get; init; }

    /// <summary>The attachment whose check it is; null: reported by itself.</summary>
    public Guid? AttachmentId { get; init; }

    /// <summary>When it was recorded.</summary>
    public required DateTimeOffset RecordedAt { get; init; }
}
