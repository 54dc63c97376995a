using TagService.Domain.Reliability;

namespace TagService.Domain.LifetimeCosts;

/// <summary>Everything the cost of one tag choice on one asset depends on. Amounts are in one currency.</summary>
public readonly record struct CostCase
{
    /// <summary>Price of one tag.</summary>
    public required double TagPrice { get; init; }

    /// <summary>Consumables of one application.</summary>
    public required double ConsumablesPrice { get; init; }

    /// <summary>Minutes to prepare and fix one tag (class and fixing), without encoding and recording.</summary>
    public required double FixingMinutes { get; init; }

    /// <summary>Loaded labour rate per hour.</summary>
    public required double LabourRatePerHour { get; init; }

    /// <summary>Minutes to travel to, find and reach the asset.</summary>
    public required double VisitMinutes { get; init; }

    /// <summary>Remaining life of the asset and its discount factors.</summary>
    public required ServiceHorizon Horizon { get; init; }

    /// <summary>Sweeps a year.</summary>
    public required double SweepsPerYear { get; init; }

    /// <summary>Median read range in m; 0 when the tag does not read.</summary>
    public required double RangeM { get; init; }

    /// <summary>Probability that one sweep misses a working tag, 0 to 1.</summary>
    public required double MissProbability { get; init; }

    /// <summary>Life of the attachment.</summary>
    public required Weibull Life { get; init; }

    /// <summary>D(T), discounted re-applications within the asset's life.</summary>
    public required double DiscountedRenewals { get; init; }

    /// <summary>The case with another life and the renewals that follow from it.</summary>
    internal CostCase With(Weibull life) => this with { Life = life, DiscountedRenewals = Horizon.DiscountedRenewals(life) };

    /// <summary>Labour of <paramref name="minutes"/> in money.</summary>
    internal double Labour(double minutes) => minutes / 60 * LabourRatePerHour;
}

/// <summary>One part of the lifetime cost. Parts add up; a part never depends on another part.</summary>
public interface ICostComponent
{
    /// <summary>Stable kebab-case id.</summary>
    string Id { get; }

    /// <summary>Plain name.</summary>
    string Name { get; }

    /// <summary>Present value in the case's currency, at least 0.</summary>
    double PresentValue(in CostCase c);

    /// <summary>How it came about, for an accountant.</summary>
    string Working(in CostCase c);
}
