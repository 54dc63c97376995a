using TagService.Storage.Tables;

namespace TagService.Storage.Queries;

/// <summary>A register source with what has come of it.</summary>
/// <param name="Source">The source.</param>
/// <param name="LastRun">Its latest run.</param>
/// <param name="Listed">Assets that it lists.</param>
public sealed record StoredRegisterSource(RegisterSourceRow Source, RegisterSyncRow? LastRun, long Listed);
