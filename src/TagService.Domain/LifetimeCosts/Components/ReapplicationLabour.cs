using TagService.Domain.Words;

namespace TagService.Domain.LifetimeCosts.Components;

/// <summary>Labour of all re-applications: a whole visit, removal, fixing, encoding and recording, times D(T).</summary>
public sealed class ReapplicationLabour : ICostComponent
{
    /// <inheritdoc />
    public string Id => "re-application-labour";

    /// <inheritdoc />
    public string Name => "Re-application labour";

    /// <inheritdoc />
    public double PresentValue(in CostCase c) =>
        c.DiscountedRenewals * c.Labour(
            c.VisitMinutes + CostPlanning.RemovalMinutes + c.FixingMinutes + CostPlanning.EncodeVerifyRecordMinutes);

    /// <inheritdoc />
    public string Working(in CostCase c) =>
        InvariantText.Of($"{c.DiscountedRenewals:0.000} discounted re-applications x ({c.VisitMinutes:0.#} travel + {CostPlanning.RemovalMinutes:0.#} removal + {c.FixingMinutes:0.#} fixing + {CostPlanning.EncodeVerifyRecordMinutes:0.#} encode and record) min x {c.LabourRatePerHour:0.00}/h");
}
