using TagService.Domain.Words;

namespace TagService.Domain.LifetimeCosts.Components;

/// <summary>Labour of the sweeps, yearly at year end: walking, which falls with the range, and searching after a miss.</summary>
public sealed class ReadingLabour : ICostComponent
{
    /// <inheritdoc />
    public string Id => "reading-labour";

    /// <inheritdoc />
    public string Name => "Reading labour";

    /// <inheritdoc />
    public double PresentValue(in CostCase c) =>
        c.Horizon.YearEndFactor * c.SweepsPerYear * c.Labour(MinutesPerSweep(c));

    /// <inheritdoc />
    public string Working(in CostCase c) =>
        InvariantText.Of($"{c.SweepsPerYear:0.#} sweeps a year x {MinutesPerSweep(c):0.00} min x {c.LabourRatePerHour:0.00}/h over {c.Horizon.LifeYears:0.#} years");

    private static double MinutesPerSweep(in CostCase c) =>
        (CostPlanning.WalkMinutesAtOneMetre / Math.Clamp(c.RangeM, 0.05, CostPlanning.WalkRangeCapM))
        + (CostPlanning.SearchMinutes * c.MissProbability);
}
