using TagService.Domain.LifetimeCosts;
using TagService.Domain.Profiles;
using TagService.Domain.Radio;
using TagService.Domain.Reliability;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Recommendations;

/// <summary>The whole answer to one asset record.</summary>
public sealed record RecommendationAnswer
{
    /// <summary>The choice; null when no class suits.</summary>
    public required Candidate? Recommendation { get; init; }

    /// <summary>Why there is none, and what would have to change.</summary>
    public required NoneBecause? NoneBecause { get; init; }

    /// <summary>Candidates, best first.</summary>
    public required IReadOnlyList<Candidate> Candidates { get; init; }

    /// <summary>How the record was understood.</summary>
    public required ProfileMatch Profile { get; init; }

    /// <summary>
    /// Id of the material at the surface, given or assumed. Of all measured ranges only those on this material count for the
    /// candidates; questions vary the material and may count others.
    /// </summary>
    public required string MaterialId { get; init; }

    /// <summary>What was assumed and why.</summary>
    public required IReadOnlyList<Assumption> Assumptions { get; init; }

    /// <summary>What to ask the asset's owner, most valuable first.</summary>
    public required IReadOnlyList<Question> Questions { get; init; }

    /// <summary>Cautions for fitting and use.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }

    /// <summary>Version of the tag classes judged.</summary>
    public required string CatalogueVersion { get; init; }

    /// <summary>ISO 4217 code of all amounts.</summary>
    public required string Currency { get; init; }

    /// <summary>What else the caller should know about the record.</summary>
    public required IReadOnlyList<Notice> Notices { get; init; }
}

/// <summary>Judgement of one tag class on one asset, from best to worst.</summary>
public enum CandidateVerdict
{
    /// <summary>Every rule holds and the range is met with the wanted probability.</summary>
    Suitable,

    /// <summary>As suitable, but a rule only just holds.</summary>
    Marginal,

    /// <summary>The rules hold, the range does not.</summary>
    ShortOfRange,

    /// <summary>A rule does not hold.</summary>
    Unsuitable,
}

/// <summary>One tag class with its best fixing on one asset.</summary>
public sealed record Candidate
{
    /// <summary>The tag class.</summary>
    public required TagClass TagClass { get; init; }

    /// <summary>Its best fixing here.</summary>
    public required AttachmentMethod Method { get; init; }

    /// <summary>The judgement.</summary>
    public required CandidateVerdict Verdict { get; init; }

    /// <summary>Expected range.</summary>
    public required RangeEstimate Range { get; init; }

    /// <summary>What the field has taught about this class on this material; no observations: the prior.</summary>
    public required CalibrationPosterior RangeCalibration { get; init; }

    /// <summary>Probability that a typical stock-take reads such an asset at the wanted distance.</summary>
    public required double RequiredRangeProbability { get; init; }

    /// <summary>The band of <see cref="Range"/>, then the region's other bands with their ranges; empty for HF.</summary>
    public required IReadOnlyList<BandRange> Bands { get; init; }

    /// <summary>Loss budget of the median range.</summary>
    public required IReadOnlyList<LossBudgetLine> LossBudget { get; init; }

    /// <summary>The fitter's steps.</summary>
    public required IReadOnlyList<string> Steps { get; init; }

    /// <summary>Minutes to prepare, fix, encode, check and record.</summary>
    public required double Minutes { get; init; }

    /// <summary>Expected life of the attachment.</summary>
    public required LifeEstimate Life { get; init; }

    /// <summary>Probability that the attachment outlives the asset's remaining life.</summary>
    public required double SurvivesService { get; init; }

    /// <summary>Range against the spacing put under the tag, up to the height there is.</summary>
    public required IReadOnlyList<StandoffPoint> StandoffCurve { get; init; }

    /// <summary>Lifetime cost.</summary>
    public required LifetimeCost Cost { get; init; }

    /// <summary>What speaks for and against it, in plain sentences.</summary>
    public required IReadOnlyList<string> Reasons { get; init; }

    /// <summary>Rules that do not hold or only just, with the two values.</summary>
    public required IReadOnlyList<Rejection> Rejections { get; init; }
}

/// <summary>Expected range in one of the region's bands.</summary>
/// <param name="Band">The band with its rule.</param>
/// <param name="P10M">Distance in m that nine in ten exceed.</param>
/// <param name="P50M">Median distance in m.</param>
/// <param name="P90M">Distance in m that one in ten exceeds.</param>
public sealed record BandRange(RadioBand Band, double P10M, double P50M, double P90M);

/// <summary>A rule that does not hold, or only just.</summary>
/// <param name="RuleId">Id of the rule.</param>
/// <param name="Family">Family of the rule.</param>
/// <param name="Verdict">Marginal or fail.</param>
/// <param name="Needed">What the asset asks for.</param>
/// <param name="Offered">What class or fixing offers.</param>
/// <param name="Sentence">In words.</param>
public sealed record Rejection(
    string RuleId, string Family, RuleVerdict Verdict, string Needed, string Offered, string Sentence);

/// <summary>Why no class suits.</summary>
/// <param name="Summary">In one sentence.</param>
/// <param name="Changes">Single changes that would let a class in, cheapest class first.</param>
public sealed record NoneBecause(string Summary, IReadOnlyList<NeededChange> Changes);

/// <summary>One change that would let a class in.</summary>
/// <param name="What">What has to change: a rule's family, reading distance, reader.</param>
/// <param name="From">As it is now.</param>
/// <param name="To">As it would have to be.</param>
/// <param name="TagClassId">The class that would then suit.</param>
/// <param name="Sentence">In words.</param>
public sealed record NeededChange(string What, string From, string To, string TagClassId, string Sentence);

/// <summary>A question whose answer could change the choice or its cost.</summary>
/// <param name="Pointer">JSON pointer of the field to send.</param>
/// <param name="Text">The question.</param>
/// <param name="Assumed">What is assumed until then.</param>
/// <param name="Options">Plausible answers and what each would change.</param>
/// <param name="ExpectedSaving">Money saved on average by asking, in the answer's currency.</param>
public sealed record Question(
    string Pointer, string Text, string Assumed, IReadOnlyList<QuestionOption> Options, double ExpectedSaving);

/// <summary>A plausible answer.</summary>
/// <param name="Answer">The answer.</param>
/// <param name="Share">How likely, 0 to 1.</param>
/// <param name="TagClassId">The class that would be chosen; null if none.</param>
/// <param name="ChangesChoice">Whether that differs from the present choice.</param>
public sealed record QuestionOption(string Answer, double Share, string? TagClassId, bool ChangesChoice);
