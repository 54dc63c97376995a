namespace TagService.Api.Features.Health;

/// <summary>Something that must be fine before the service gets traffic.</summary>
public interface IReadinessCheck
{
    /// <summary>What is looked at, for example database.</summary>
    string Name { get; }

    /// <summary>Why the service is not ready, in a sentence without credentials; null when it is. Answers within a few seconds.</summary>
    Task<string?> WhyNotAsync(CancellationToken cancellationToken);
}
