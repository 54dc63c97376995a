using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>Fills life, sweeps and labour.</summary>
internal readonly record struct ServicePart(
    double LifeYears, double SweepsPerYear, string Currency, double LabourRatePerHour, double VisitMinutes, double DiscountRate)
{
    public static ServicePart Resolve(ServiceRecord? given, ServiceRecord? typical, Gaps gaps)
    {
        var defaults = ProductDefault.All.Service!;
        return new(
            gaps.Pick(ResolvedField.LifeYears, given?.LifeYears, typical?.LifeYears, null),
            gaps.Pick(ResolvedField.SweepsPerYear, given?.SweepsPerYear, typical?.SweepsPerYear, defaults.SweepsPerYear),
            CurrencyOf(given?.Currency, defaults.Currency!, gaps),
            gaps.Pick(ResolvedField.LabourRatePerHour, given?.LabourRatePerHour, typical?.LabourRatePerHour, defaults.LabourRatePerHour),
            gaps.Pick(ResolvedField.VisitMinutes, given?.VisitMinutes, typical?.VisitMinutes, defaults.VisitMinutes),
            gaps.Pick(ResolvedField.DiscountRate, given?.DiscountRate, typical?.DiscountRate, defaults.DiscountRate));
    }

    private static string CurrencyOf(string? given, string byDefault, Gaps gaps)
    {
        if (!string.IsNullOrWhiteSpace(given))
            return given;
        gaps.Assume(ResolvedField.Currency, AssumptionBasis.Default);
        return byDefault;
    }
}
