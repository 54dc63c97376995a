namespace TagService.Api.Features.ReferenceTables;

/// <summary>All rows of one reference table.</summary>
/// <typeparam name="T">The row's record.</typeparam>
/// <param name="Items">The rows; each names its source.</param>
public sealed record ReferenceTableResponse<T>(IReadOnlyList<T> Items);
