using TagService.Storage.Bulk;

namespace TagService.Storage.Registers;

/// <summary>An asset as the mirror has it when a row of a source is laid over it.</summary>
/// <param name="Content">What is stored.</param>
/// <param name="Source">Where that came from.</param>
/// <param name="WasListed">The source listed it before.</param>
public sealed record StoredListing(AssetToLoad Content, string Source, bool WasListed);

/// <summary>A row that makes an asset.</summary>
/// <param name="Asset">The asset as it should be.</param>
/// <param name="RowHash">Hash of the row and the settings by which it was read.</param>
public sealed record ListedAsset(AssetToLoad Asset, byte[] RowHash);

/// <summary>A row that is not taken.</summary>
/// <param name="Place">Where it stood.</param>
/// <param name="AssetId">The asset's key, where it could be read.</param>
/// <param name="Reason">Why.</param>
/// <param name="Problems">Each value that was not understood.</param>
/// <param name="OriginalText">The row as the source wrote it.</param>
public sealed record RefusedRow(string Place, string? AssetId, string Reason, IReadOnlyList<Tables.ValueNote> Problems, string OriginalText);

/// <summary>What a page came to beside its assets.</summary>
/// <param name="Position">The position behind it.</param>
/// <param name="Rows">Rows read, unreadable ones not counted.</param>
/// <param name="Repeated">Rows left out because the same row came before.</param>
/// <param name="Announced">Rows that the source announced, where it did.</param>
/// <param name="Refused">Rows not taken, unreadable ones included.</param>
/// <param name="Notes">All that the run has noted, this page included.</param>
public sealed record PageResult(
    string Position, long Rows, long Repeated, long? Announced, IReadOnlyList<RefusedRow> Refused, Tables.RegisterSyncNotes Notes);
