namespace TagService.Storage.Tables;

/// <summary>Which asset a source lists, and by which row: a row that comes again unchanged needs no second look.</summary>
public sealed class RegisterRowRow
{
    /// <summary>Name of the source.</summary>
    public required string SourceName { get; init; }

    /// <summary>The asset.</summary>
    public required string AssetId { get; init; }

    /// <summary>Hash of the row and of the settings by which it was read.</summary>
    public required byte[] RowHash { get; init; }
}
