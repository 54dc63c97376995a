using TagService.Domain.LifetimeCosts;
using TagService.Domain.Profiles;
using TagService.Domain.Reliability;
using TagService.Domain.Suitability;

namespace TagService.Domain.Recommendations;

/// <summary>What the cost of a pair of class and fixing depends on beside its range.</summary>
/// <param name="Pair">Index of the pair.</param>
/// <param name="Marginals">Rules that only just hold: they shorten the life.</param>
/// <param name="Minutes">Minutes to fix one tag.</param>
/// <param name="Life">Life of the attachment.</param>
/// <param name="Renewals">Discounted re-applications within the asset's life; the dearest figure to work out.</param>
internal readonly record struct PairCost(int Pair, int Marginals, double Minutes, Weibull Life, double Renewals);

/// <summary>Lifetime costs of the pairs of a catalogue on one asset.</summary>
internal sealed class PairCosts
{
    private readonly ResolvedAsset _asset;
    private readonly CompiledCatalogue _catalogue;
    private readonly ServiceHorizon _horizon;
    private readonly double _severity;

    public PairCosts(ResolvedAsset asset, CompiledCatalogue catalogue)
        : this(asset, catalogue, new(asset.LifeYears, asset.DiscountRate))
    {
    }

    private PairCosts(ResolvedAsset asset, CompiledCatalogue catalogue, ServiceHorizon horizon)
    {
        _asset = asset;
        _catalogue = catalogue;
        _horizon = horizon;
        _severity = LifePriors.Severity(asset, Settings.Of(asset.Setting));
    }

    /// <summary>The costs on an asset that differs in some fields; the same where none of them matters.</summary>
    public PairCosts Vary(ResolvedAsset varied, AssetFields differences)
    {
        if ((differences & AssetFields.Cost) == 0)
            return this;
        var sameYears = varied.LifeYears == _asset.LifeYears && varied.DiscountRate == _asset.DiscountRate;
        return new(varied, _catalogue, sameYears ? _horizon : new(varied.LifeYears, varied.DiscountRate));
    }

    /// <summary>Does a pair last and get renewed as it does there?</summary>
    public bool RenewsLike(PairCosts other) => ReferenceEquals(_horizon, other._horizon) && _severity == other._severity;

    /// <summary>Does fixing a tag take as long as there, whatever the pair?</summary>
    public bool FixesLike(PairCosts other) =>
        (_asset.HazardousArea is null) == (other._asset.HazardousArea is null)
        && ReferenceEquals(_asset.Coating, other._asset.Coating)
        && _asset.ApplicationTemperatureC == other._asset.ApplicationTemperatureC
        && _asset.CurvatureRadiusMm == other._asset.CurvatureRadiusMm;

    /// <summary>Does everything but life and minutes of fixing cost what it costs there?</summary>
    public bool PaysLike(PairCosts other) =>
        _asset.LabourRatePerHour == other._asset.LabourRatePerHour && _asset.VisitMinutes == other._asset.VisitMinutes
        && _asset.SweepsPerYear == other._asset.SweepsPerYear && _asset.PriceFactor == other._asset.PriceFactor
        && _asset.Currency == other._asset.Currency;

    /// <summary>Expected life of a pair.</summary>
    public LifeEstimate LifeOf(int pair, int marginals)
    {
        var (tagClass, method) = _catalogue.Pairs[pair];
        return LifePriors.For(_catalogue.Classes[tagClass], _catalogue.Methods[method], _severity, marginals);
    }

    /// <summary>Minutes to fix one tag.</summary>
    public double MinutesOf(int pair)
    {
        var (tagClass, method) = _catalogue.Pairs[pair];
        return FittingInstruction.MinutesFor(_asset, _catalogue.Classes[tagClass], _catalogue.Methods[method]);
    }

    /// <summary>What is left of a pair's cost without its range.</summary>
    public PairCost Of(int pair, int marginals)
    {
        var life = LifeOf(pair, marginals).Distribution;
        return new(pair, marginals, MinutesOf(pair), life, _horizon.DiscountedRenewals(life));
    }

    /// <summary>The least a pair can cost, whatever its range: the widest one, and no search.</summary>
    public double Least(in PairCost pair) => Total(pair, double.MaxValue, 1);

    /// <summary>What a pair costs at a range and a probability of being read.</summary>
    public double Total(in PairCost pair, double rangeM, double probability) =>
        CostComponents.Total(Case(pair, rangeM, probability));

    /// <summary>The same as the case that its parts are worked out from.</summary>
    public CostCase Case(in PairCost pair, double rangeM, double probability)
    {
        var tagClass = _catalogue.Classes[_catalogue.Pairs[pair.Pair].Class];
        var method = _catalogue.Methods[_catalogue.Pairs[pair.Pair].Method];
        return new()
        {
            TagPrice = tagClass.Price.Typical * _asset.PriceFactorOf(tagClass),
            ConsumablesPrice = method.ConsumablesPrice * _asset.PriceFactor,
            FixingMinutes = pair.Minutes,
            LabourRatePerHour = _asset.LabourRatePerHour,
            VisitMinutes = _asset.VisitMinutes,
            Horizon = _horizon,
            SweepsPerYear = _asset.SweepsPerYear,
            RangeM = rangeM,
            MissProbability = 1 - probability,
            Life = pair.Life,
            DiscountedRenewals = pair.Renewals,
        };
    }
}
