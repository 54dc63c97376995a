namespace TagService.Storage.Tables;

/// <summary>
/// A mark: the findings of a class on a material have changed, and their posterior is still to be computed. One row for each
/// transaction that changed some, so that writers of attachments never wait for each other here.
/// </summary>
public sealed class RangeCalibrationDueRow
{
    /// <summary>Rising key; gaps are possible.</summary>
    public long Id { get; private set; }

    /// <summary>Tag class.</summary>
    public required string TagClassId { get; init; }

    /// <summary>Material at the surface.</summary>
    public required string MaterialId { get; init; }
}
