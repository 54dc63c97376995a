using TagService.Domain.LifetimeCosts;
using TagService.Domain.Radio;
using TagService.Domain.Reliability;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Recommendations;

/// <summary>Numbers of one tag class with one fixing on one asset; text is built later, for the few that are shown.</summary>
internal readonly record struct ClassEvaluation(
    TagClass TagClass,
    AttachmentMethod Method,
    CandidateVerdict Verdict,
    RuleScore Score,
    RangePrediction Prediction,
    double Probability,
    LifeEstimate Life,
    CostCase CostCase,
    double Cost) : IComparable<ClassEvaluation>
{
    /// <summary>Can it be chosen?</summary>
    public bool Fits => Verdict <= CandidateVerdict.Marginal;

    /// <summary>
    /// Best first: verdict; then lifetime cost among those that fit; then probability of reading among those short of
    /// range; then fewest broken rules. Ids break ties so that the order never depends on the catalogue's.
    /// </summary>
    public int CompareTo(ClassEvaluation other)
    {
        var order = Verdict.CompareTo(other.Verdict);
        if (order == 0 && Verdict == CandidateVerdict.Unsuitable)
            order = Score.Fails.CompareTo(other.Score.Fails);
        if (order == 0 && Verdict >= CandidateVerdict.ShortOfRange)
            order = other.Probability.CompareTo(Probability);
        if (order == 0)
            order = Cost.CompareTo(other.Cost);
        return order != 0 ? order : string.CompareOrdinal(TagClass.Id, other.TagClass.Id);
    }
}
