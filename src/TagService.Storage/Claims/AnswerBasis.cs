namespace TagService.Storage.Claims;

/// <summary>What a stored answer rests on beside the asset's record.</summary>
/// <param name="EngineVersion">Version of the engine.</param>
/// <param name="CatalogueVersion">Version of the catalogue.</param>
/// <param name="MaterialId">Material at the surface, given or assumed.</param>
/// <param name="MeasuredVersion">Version of the ranges measured on that material; empty without any.</param>
public sealed record AnswerBasis(string EngineVersion, string CatalogueVersion, string MaterialId, string MeasuredVersion);

/// <summary>Which assets to claim.</summary>
public abstract record DueAssets
{
    private DueAssets()
    {
    }

    /// <summary>Those marked because they are new or the engine reads something else of them than before.</summary>
    public sealed record Marked : DueAssets;

    /// <summary>Those of which nobody has worked out yet what the engine reads: rows of a program version that did not.</summary>
    public sealed record WithoutInputKey : DueAssets;

    /// <summary>Those whose answer rests on this.</summary>
    /// <param name="Basis">An engine, a catalogue and a state of measurements that are no longer the present ones.</param>
    public sealed record AnsweredOn(AnswerBasis Basis) : DueAssets;
}
