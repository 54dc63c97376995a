namespace TagService.Api.Features.Health;

/// <summary>State of the service for probes.</summary>
/// <param name="Status">alive or ready.</param>
/// <param name="Checks">What was looked at.</param>
public sealed record HealthResponse(string Status, IReadOnlyList<string>? Checks = null);
