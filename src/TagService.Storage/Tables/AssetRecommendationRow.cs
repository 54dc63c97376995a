using TagService.Domain.Recommendations;

namespace TagService.Storage.Tables;

/// <summary>The engine's answer for one asset, and what it was computed from. Either a tag class or a reason why none.</summary>
public sealed class AssetRecommendationRow
{
    /// <summary>The asset.</summary>
    public required string AssetId { get; init; }

    /// <summary>Id of the recommended tag class; null when none suits.</summary>
    public string? TagClassId { get; init; }

    /// <summary>Id of its way of attachment.</summary>
    public string? AttachmentMethodId { get; init; }

    /// <summary>Distance in m that 90 % of such assets exceed.</summary>
    public double? P10M { get; init; }

    /// <summary>Median distance in m.</summary>
    public double? P50M { get; init; }

    /// <summary>Distance in m that 10 % of such assets exceed.</summary>
    public double? P90M { get; init; }

    /// <summary>Why no tag class suits; null when one does.</summary>
    public string? NoneBecause { get; init; }

    /// <summary>Present value of the lifetime cost; null where the engine gave none.</summary>
    public decimal? LifetimeCostPresentValue { get; init; }

    /// <summary>ISO 4217 currency of that amount.</summary>
    public string? LifetimeCostCurrency { get; init; }

    /// <summary>Version of the engine that answered.</summary>
    public required string EngineVersion { get; init; }

    /// <summary>Version of the catalogue it chose from (<see cref="RecommendationContext.AnswerVersion"/>).</summary>
    public required string CatalogueVersion { get; init; }

    /// <summary>Id of the material at the surface, given or assumed; empty in rows of a program version that did not keep it.</summary>
    public string MaterialId { get; init; } = "";

    /// <summary>Version of the ranges measured on that material (<see cref="Domain.Radio.RangeCalibrations.VersionOn"/>); empty without any.</summary>
    public string MeasuredVersion { get; init; } = "";

    /// <summary>What the engine read of the asset's record (<see cref="AssetRow.InputKey"/>).</summary>
    public string InputKey { get; init; } = "";

    /// <summary>Hash of the asset record it was computed from (<see cref="AssetRow.RecordHash"/>).</summary>
    public required string RecordHash { get; init; }

    /// <summary>When it was computed.</summary>
    public required DateTimeOffset ComputedAt { get; init; }
}
