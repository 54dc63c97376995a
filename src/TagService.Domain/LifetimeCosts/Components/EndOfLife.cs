using TagService.Domain.Words;

namespace TagService.Domain.LifetimeCosts.Components;

/// <summary>Labour to take the tag off or invalidate it when the asset retires.</summary>
public sealed class EndOfLife : ICostComponent
{
    /// <inheritdoc />
    public string Id => "end-of-life";

    /// <inheritdoc />
    public string Name => "End of life";

    /// <inheritdoc />
    public double PresentValue(in CostCase c) =>
        c.Horizon.RetirementFactor * c.Labour(CostPlanning.EndOfLifeMinutes);

    /// <inheritdoc />
    public string Working(in CostCase c) =>
        InvariantText.Of($"{CostPlanning.EndOfLifeMinutes:0.#} min x {c.LabourRatePerHour:0.00}/h in {c.Horizon.LifeYears:0.#} years");
}
