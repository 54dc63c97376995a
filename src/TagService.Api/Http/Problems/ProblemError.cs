namespace TagService.Api.Http.Problems;

/// <summary>One thing that is wrong, and where.</summary>
/// <param name="Pointer">JSON pointer of the place as a URI fragment, for example #/reading/requiredRangeM; # is the whole body. For a query parameter its name.</param>
/// <param name="Value">What was sent there, cut to 80 characters; absent when nothing was.</param>
/// <param name="Detail">What is wrong, in one sentence.</param>
/// <param name="Accepted">What would be accepted.</param>
public sealed record ProblemError(string Pointer, string? Value, string Detail, string? Accepted = null);
