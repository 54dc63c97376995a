using TagService.Domain.Reference;

namespace TagService.Domain.LifetimeCosts;

/// <summary>One planning figure of the lifetime cost, with its unit and origin.</summary>
/// <param name="Id">Stable kebab-case id.</param>
/// <param name="Value">The figure.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Meaning">What it stands for.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record CostPlanningValue(string Id, double Value, string Unit, string Meaning, string Source);

/// <summary>The planning figures, read once.</summary>
public static class CostPlanning
{
    /// <summary>All rows.</summary>
    public static ReferenceTable<CostPlanningValue> Table { get; } = new("cost-planning.data.json", v => v.Id);

    internal static readonly double EncodeVerifyRecordMinutes = Table["encode-verify-record-minutes"].Value;
    internal static readonly double RemovalMinutes = Table["removal-minutes"].Value;
    internal static readonly double SearchMinutes = Table["search-minutes"].Value;
    internal static readonly double WalkMinutesAtOneMetre = Table["walk-minutes-at-one-metre"].Value;
    internal static readonly double WalkRangeCapM = Table["walk-range-cap"].Value;
    internal static readonly double FirstVisitShare = Table["first-visit-share"].Value;
    internal static readonly double EndOfLifeMinutes = Table["end-of-life-minutes"].Value;
    internal static readonly double NoReapplicationWithinYears = Table["no-reapplication-within-years"].Value;
}
