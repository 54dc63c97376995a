using TagService.Api.Http.Problems;

namespace TagService.Api.Features.Problems;

/// <summary>All problem types of the interface.</summary>
/// <param name="Items">The types, by status.</param>
public sealed record ProblemListResponse(IReadOnlyList<ProblemType> Items);
