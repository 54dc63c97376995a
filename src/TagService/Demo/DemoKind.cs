using TagService.Domain.Recommendations;

namespace TagService.Demo;

/// <summary>One kind of asset in the invented fleet.</summary>
public sealed record DemoKind
{
    /// <summary>Three letters within the asset number.</summary>
    public required string Code { get; init; }

    /// <summary>How the register writes the category: first the usual way, then the odd ones.</summary>
    public required IReadOnlyList<string> Categories { get; init; }

    /// <summary>Free texts.</summary>
    public required IReadOnlyList<string> Descriptions { get; init; }

    /// <summary>Invented makers.</summary>
    public required IReadOnlyList<string> Makers { get; init; }

    /// <summary>Where on a site such assets are.</summary>
    public required IReadOnlyList<string> Rooms { get; init; }

    /// <summary>Assets at each site, by kind of site.</summary>
    public required IReadOnlyDictionary<string, int> Counts { get; init; }

    /// <summary>What a well-kept record would say.</summary>
    public required AssetRecord Full { get; init; }

    /// <summary>Always "invented".</summary>
    public required string Source { get; init; }
}
