namespace TagService.Domain.Radio;

/// <summary>Path loss of a kind of place: free space to the breakpoint, then exponent n, with a spread from look to look.</summary>
public sealed record SiteModel
{
    /// <summary>Stable kebab-case id.</summary>
    public required string Id { get; init; }

    /// <summary>Plain name.</summary>
    public required string Name { get; init; }

    /// <summary>Distance in m up to which free space holds.</summary>
    public required double BreakpointM { get; init; }

    /// <summary>Path exponent beyond the breakpoint (2 is free space).</summary>
    public required double PathExponent { get; init; }

    /// <summary>Standard deviation in dB from look to look (multipath, small movements).</summary>
    public required double LookSigmaDb { get; init; }

    /// <summary>Where the figures come from.</summary>
    public required string Source { get; init; }
}
