using TagService.Domain.Reference;

namespace TagService.Domain.Fitting;

/// <summary>One planning figure of fitting, with its unit and origin.</summary>
/// <param name="Id">Stable kebab-case id.</param>
/// <param name="Value">The figure.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Meaning">What it stands for.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record FittingPlanningValue(string Id, double Value, string Unit, string Meaning, string Source);

/// <summary>The planning figures of fitting, read once.</summary>
public static class FittingPlanning
{
    /// <summary>All rows.</summary>
    public static ReferenceTable<FittingPlanningValue> Table { get; } = new("fitting-planning.data.json", v => v.Id);

    internal static readonly double CheckDistanceM = Table["check-distance"].Value;
    internal static readonly double CheckDistanceStepM = Table["check-distance-step"].Value;
    internal static readonly double LowestConductedDbm = Table["lowest-conducted-power"].Value;
    internal static readonly double AcceptanceFailureShare = Table["acceptance-failure-share"].Value;
    internal static readonly double LeastSpares = Table["least-spares"].Value;
}
