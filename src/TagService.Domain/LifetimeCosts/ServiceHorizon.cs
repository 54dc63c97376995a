namespace TagService.Domain.LifetimeCosts;

/// <summary>Remaining life of an asset at a discount rate, with the factors that every tag choice on it shares.</summary>
public sealed class ServiceHorizon
{
    /// <summary>Works the factors out once.</summary>
    /// <param name="lifeYears">Remaining life in years, at least 0.</param>
    /// <param name="discountRate">Real annual rate as a fraction.</param>
    public ServiceHorizon(double lifeYears, double discountRate)
    {
        LifeYears = lifeYears;
        DiscountRate = discountRate;
        ContinuousRate = PresentValue.ContinuousRate(discountRate);
        YearEndFactor = PresentValue.Upv(discountRate, lifeYears);
        RetirementFactor = PresentValue.Spv(discountRate, lifeYears);
        RenewalYears = Math.Max(0, lifeYears - CostPlanning.NoReapplicationWithinYears);
    }

    /// <summary>Remaining life in years.</summary>
    public double LifeYears { get; }

    /// <summary>Real annual rate as a fraction.</summary>
    public double DiscountRate { get; }

    /// <summary>r = ln(1 + d).</summary>
    public double ContinuousRate { get; }

    /// <summary>Present value of 1 a year at year end over the life.</summary>
    public double YearEndFactor { get; }

    /// <summary>Present value of 1 at retirement.</summary>
    public double RetirementFactor { get; }

    /// <summary>Years within which a failed tag is replaced: the life less its last stretch.</summary>
    public double RenewalYears { get; }

    /// <summary>D, the discounted re-applications of a Weibull life within <see cref="RenewalYears"/>.</summary>
    public double DiscountedRenewals(Reliability.Weibull life) =>
        RenewalTable.ForShape(life.Shape).Discounted(life.ScaleYears, RenewalYears, ContinuousRate);
}
