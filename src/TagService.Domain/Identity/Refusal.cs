namespace TagService.Domain.Identity;

/// <summary>Why something is not an identity, or does not go into a scheme: an expected outcome, so a value and no exception.</summary>
/// <param name="Field">Name of the field, in camelCase, for example <c>companyPrefix</c>.</param>
/// <param name="Value">What was given; null when nothing was.</param>
/// <param name="Detail">What is wrong, in one sentence.</param>
/// <param name="Accepted">What would be accepted.</param>
public sealed record Refusal(string Field, string? Value, string Detail, string Accepted);
