namespace TagService.Storage.Tables;

/// <summary>Says that this database holds an invented demo fleet, and which.</summary>
public sealed class DemoFleetRow
{
    /// <summary>Name of the made-up organisation.</summary>
    public required string Name { get; init; }

    /// <summary>Seed the fleet was generated from.</summary>
    public required int Seed { get; init; }

    /// <summary>Version of the generator.</summary>
    public required int Version { get; init; }

    /// <summary>Assets loaded.</summary>
    public required int AssetCount { get; init; }

    /// <summary>When it was loaded.</summary>
    public required DateTimeOffset LoadedAt { get; init; }
}
