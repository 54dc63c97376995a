using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>Fills life, sweeps and labour.</summary>
internal readonly record struct ServicePart(
    double LifeYears, double SweepsPerYear, MoneyPart Money, double VisitMinutes, double DiscountRate)
{
    public static ServicePart Resolve(ServiceRecord? given, ServiceRecord? typical, Gaps gaps)
    {
        var defaults = ProductDefault.All.Service!;
        return new(
            gaps.Pick(ResolvedField.LifeYears, given?.LifeYears, typical?.LifeYears, null),
            gaps.Pick(ResolvedField.SweepsPerYear, given?.SweepsPerYear, typical?.SweepsPerYear, defaults.SweepsPerYear),
            MoneyPart.Resolve(given, defaults, gaps),
            gaps.Pick(ResolvedField.VisitMinutes, given?.VisitMinutes, typical?.VisitMinutes, defaults.VisitMinutes),
            gaps.Pick(ResolvedField.DiscountRate, given?.DiscountRate, typical?.DiscountRate, defaults.DiscountRate));
    }
}
