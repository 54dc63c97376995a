using TagService.Domain.Words;

namespace TagService.Domain.LifetimeCosts.Components;

/// <summary>Labour of the first visit: a share of the travel, fixing, encoding, read-back and recording, at t = 0.</summary>
public sealed class FirstApplication : ICostComponent
{
    /// <inheritdoc />
    public string Id => "first-application";

    /// <inheritdoc />
    public string Name => "First application";

    /// <inheritdoc />
    public double PresentValue(in CostCase c) =>
        c.Labour((CostPlanning.FirstVisitShare * c.VisitMinutes) + c.FixingMinutes + CostPlanning.EncodeVerifyRecordMinutes);

    /// <inheritdoc />
    public string Working(in CostCase c) =>
        InvariantText.Of($"({CostPlanning.FirstVisitShare:0.##} x {c.VisitMinutes:0.#} travel + {c.FixingMinutes:0.#} fixing + {CostPlanning.EncodeVerifyRecordMinutes:0.#} encode and record) min x {c.LabourRatePerHour:0.00}/h");
}
