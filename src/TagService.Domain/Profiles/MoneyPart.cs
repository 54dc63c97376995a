using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>
/// Currency, labour rate and what a built-in price is multiplied with. No exchange rate is invented: another currency
/// counts only with its own labour rate, and built-in prices are then carried over at equal minutes of labour.
/// </summary>
internal readonly record struct MoneyPart(string Currency, double LabourRatePerHour, double PriceFactor)
{
    public static MoneyPart Resolve(ServiceRecord? given, ServiceRecord defaults, Gaps gaps)
    {
        var own = defaults.Currency!;
        var ownRate = defaults.LabourRatePerHour!.Value;
        if (Another(given?.Currency, own) is not { } other)
        {
            if (string.IsNullOrWhiteSpace(given?.Currency))
                gaps.Assume(ResolvedField.Currency, AssumptionBasis.Default);
            return new(own, gaps.Pick(ResolvedField.LabourRatePerHour, given?.LabourRatePerHour, null, ownRate), 1);
        }

        if (given!.LabourRatePerHour is > 0 and { } rate)
        {
            gaps.Assume(ResolvedField.Currency, AssumptionBasis.Derived);
            return new(other, rate, rate / ownRate);
        }

        // Without a rate, or with free labour, nothing says what the other currency is worth.
        gaps.Miss(ResolvedField.Currency, other);
        gaps.Assume(ResolvedField.Currency, AssumptionBasis.Default);
        gaps.Assume(ResolvedField.LabourRatePerHour, AssumptionBasis.Default);
        return new(own, ownRate, 1);
    }

    private static string? Another(string? given, string own) =>
        string.IsNullOrWhiteSpace(given) || string.Equals(given, own, StringComparison.OrdinalIgnoreCase) ? null : given;
}
