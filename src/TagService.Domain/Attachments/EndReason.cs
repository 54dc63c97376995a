namespace TagService.Domain.Attachments;

/// <summary>A reason for which attachments end.</summary>
public sealed record EndReason
{
    /// <summary>Stable kebab-case id.</summary>
    public required string Id { get; init; }

    /// <summary>Plain name.</summary>
    public required string Name { get; init; }

    /// <summary>When to choose it.</summary>
    public required string Meaning { get; init; }

    /// <summary>What it says about the tag's life.</summary>
    public required EndKind Kind { get; init; }

    /// <summary>True when choosing it says that the tag still answered when it was taken off.</summary>
    public bool AnsweredAtEnd { get; init; }

    /// <summary>Where the row comes from.</summary>
    public required string Source { get; init; }
}
