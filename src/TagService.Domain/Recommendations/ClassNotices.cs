using TagService.Domain.Profiles;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Recommendations;

/// <summary>What to know about the classes of an answer beside the record: own figures nobody but the user vouches for.</summary>
internal static class ClassNotices
{
    private static readonly string PlanningCurrency = TagClassCatalogue.BuiltIn.All[0].Price.Currency;

    public static IEnumerable<Notice> Of(RecommendationContext context, IReadOnlyList<Candidate> candidates, string currency)
    {
        for (var i = 0; i < candidates.Count; i++)
        {
            var tagClass = candidates[i].TagClass;
            foreach (var finding in context.SizeBoundFindings(tagClass))
                yield return new(At(i), finding.Sentence, "size-bound");
            // Planning values are used one for one by design; a quote is money somebody would pay.
            if (tagClass.Price.Currency != currency && tagClass.Price.Currency != PlanningCurrency)
            {
                yield return new(
                    At(i),
                    $"The price of {tagClass.Id} is quoted in {tagClass.Price.Currency} and was used as {currency} one for one: no exchange rate is applied. Send service.currency and service.labourRatePerHour in {tagClass.Price.Currency}, or lay a price in {currency} over the class.",
                    "currency-not-converted");
            }
        }
    }

    private static string At(int candidate) => FormattableString.Invariant($"/candidates/{candidate}");
}
