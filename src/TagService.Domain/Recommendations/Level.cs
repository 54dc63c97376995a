namespace TagService.Domain.Recommendations;

/// <summary>A coarse degree for what nobody measures: abrasion, flexing, tampering.</summary>
public enum Level
{
    /// <summary>Does not occur.</summary>
    None,

    /// <summary>Occasionally, lightly.</summary>
    Low,

    /// <summary>Regularly.</summary>
    Medium,

    /// <summary>Daily and hard.</summary>
    High,
}
