using TagService.Domain.Radio;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Recommendations;

/// <summary>Numbers of one tag class with one fixing on one asset; the rest is worked out later, for the few that are shown.</summary>
internal readonly record struct ClassEvaluation(
    TagClass TagClass,
    AttachmentMethod Method,
    CandidateVerdict Verdict,
    int Fails,
    RangePrediction Prediction,
    double Probability,
    PairCost PairCost,
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
            order = Fails.CompareTo(other.Fails);
        if (order == 0 && Verdict >= CandidateVerdict.ShortOfRange)
            order = other.Probability.CompareTo(Probability);
        if (order == 0)
            order = Cost.CompareTo(other.Cost);
        return order != 0 ? order : string.CompareOrdinal(TagClass.Id, other.TagClass.Id);
    }
}
