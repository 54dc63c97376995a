using TagService.Storage.Tables;

namespace TagService.Storage.Queries;

/// <summary>A tag batch as lists show it.</summary>
/// <param name="Batch">The batch.</param>
public sealed record StoredTagBatch(TagBatchRow Batch);
