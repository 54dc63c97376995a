using TagService.Domain.Units;

namespace TagService.Domain.LifetimeCosts;

/// <summary>
/// Discount factors of life-cycle costing. Annual real rate d as a fraction, above -1; years n at least 0.
/// Source: NIST Handbook 135 (Fuller and Petersen, 1995), appendix tables; ASTM E917. Closed forms, tested against
/// the tabulated factors at 3, 5 and 7 %.
/// </summary>
public static class PresentValue
{
    /// <summary>Single present value of 1 after n years: (1+d)^-n.</summary>
    public static double Spv(double annualRate, double years) =>
        Math.Pow(1 + Rate(annualRate), -Guard.NotNegative(years));

    /// <summary>
    /// Present value of 1 a year at year end for n years: ((1+d)^n - 1)/(d (1+d)^n), n at d = 0. A broken last year
    /// counts by the same formula.
    /// </summary>
    public static double Upv(double annualRate, double years)
    {
        var d = Rate(annualRate);
        Guard.NotNegative(years);
        // Below this rate the quotient loses more digits than the limit differs.
        return Math.Abs(d) < 1e-9 ? years : (1 - Math.Pow(1 + d, -years)) / d;
    }

    /// <summary>The continuous rate r = ln(1+d) that renewals are discounted with.</summary>
    public static double ContinuousRate(double annualRate) => Math.Log(1 + Rate(annualRate));

    private static double Rate(double annualRate) => Guard.InRange(annualRate, -0.9, 10, nameof(annualRate));
}
