namespace TagService.Storage.Idempotency;

/// <summary>
/// The connection was lost while a change without an Idempotency-Key was being committed: nobody can tell whether it was kept,
/// and doing it again could do it twice.
/// </summary>
public sealed class CommitUncertainException() : Exception(
    "The connection was lost while the change was being saved. Look whether it was kept before sending it again; with an Idempotency-Key it can be sent again as it is.");
