namespace TagService.Storage.Tables;

/// <summary>An asset that a run has come across.</summary>
public sealed class RegisterSyncAssetRow
{
    /// <summary>The run.</summary>
    public required long SyncId { get; init; }

    /// <summary>The asset.</summary>
    public required string AssetId { get; init; }
}
