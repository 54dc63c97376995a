using System.Text.Json.Serialization;

namespace TagService.Api.Features.Recommendations;

/// <summary>Ranked tag classes for one asset record, with what the answer rests on.</summary>
/// <param name="Recommendation">The choice: the first of the candidates; null when no class suits.</param>
/// <param name="NoneBecause">Why there is no recommendation and what would have to change; null when there is one.</param>
/// <param name="Candidates">Best first; the best five unless include=all.</param>
/// <param name="Profile">How the record was understood.</param>
/// <param name="Assumptions">Every field that was missing, what was assumed and why.</param>
/// <param name="Questions">What to ask the asset's owner, most valuable first.</param>
/// <param name="Cautions">Hazards of fitting and use; never complete; local codes and competent persons decide.</param>
/// <param name="Notices">What else to know about this record.</param>
/// <param name="Currency">ISO 4217 code of all amounts in this answer.</param>
/// <param name="EngineVersion">Version of rules and formulas.</param>
/// <param name="CatalogueVersion">Version of the tag-class catalogue.</param>
public sealed record RecommendationResponse(
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] CandidateResponse? Recommendation,
    NoneBecauseResponse? NoneBecause,
    IReadOnlyList<CandidateResponse> Candidates,
    ProfileMatchResponse Profile,
    IReadOnlyList<AssumptionResponse> Assumptions,
    IReadOnlyList<QuestionResponse> Questions,
    IReadOnlyList<CautionResponse> Cautions,
    IReadOnlyList<NoticeResponse> Notices,
    string Currency,
    string EngineVersion,
    string CatalogueVersion)
{
    /// <summary>In a batch: the register's key of the asset as sent.</summary>
    public string? AssetId { get; init; }

    /// <summary>In a batch: number of the line answered, from 1.</summary>
    public long? Line { get; init; }
}

/// <summary>One tag class with its best fixing on this asset.</summary>
/// <param name="TagClassId">Id in /v1/tag-classes.</param>
/// <param name="Name">Plain name.</param>
/// <param name="Verdict">suitable, marginal, short-of-range or unsuitable.</param>
/// <param name="ExpectedRange">Expected range over such assets, one look.</param>
/// <param name="RangeBasis">What the spread rests on: the planning prior, or how many measured ranges of this class on this material.</param>
/// <param name="RequiredRangeProbability">Probability, 0 to 1, that a typical stock-take reads a randomly chosen such asset at the wanted distance.</param>
/// <param name="LimitedBy">What limits the median range: forward (reader to tag), return (tag to reader), field (HF), does-not-read, wrong-reader.</param>
/// <param name="Bands">The UHF bands of the region, the one the expected range holds in first; empty for 13.56 MHz.</param>
/// <param name="RangeByStandoff">Expected range against the spacing put under the tag, as far as the height allows.</param>
/// <param name="LossBudget">Link budget step by step, adding up to the median range.</param>
/// <param name="Attachment">How to fix it.</param>
/// <param name="Life">Expected life of the attachment.</param>
/// <param name="LifetimeCost">Present value over the asset's remaining life.</param>
/// <param name="Reasons">What speaks for and against it, in plain sentences.</param>
/// <param name="Rejections">Rules that do not hold, or only just, with the two values compared.</param>
public sealed record CandidateResponse(
    string TagClassId,
    string Name,
    string Verdict,
    ExpectedRangeResponse ExpectedRange,
    string RangeBasis,
    double RequiredRangeProbability,
    string LimitedBy,
    IReadOnlyList<BandRangeResponse> Bands,
    IReadOnlyList<StandoffPointResponse> RangeByStandoff,
    IReadOnlyList<LossBudgetLineResponse> LossBudget,
    CandidateAttachmentResponse Attachment,
    CandidateLifeResponse Life,
    LifetimeCostResponse LifetimeCost,
    IReadOnlyList<string> Reasons,
    IReadOnlyList<RejectionResponse> Rejections);

/// <summary>Expected range as a spread over such assets.</summary>
/// <param name="P10M">Distance in m that nine in ten exceed.</param>
/// <param name="P50M">Median distance in m.</param>
/// <param name="P90M">Distance in m that one in ten exceeds.</param>
public sealed record ExpectedRangeResponse(double P10M, double P50M, double P90M);

/// <summary>Expected range in one band of the region.</summary>
/// <param name="LowMhz">Lower edge in MHz.</param>
/// <param name="HighMhz">Upper edge in MHz.</param>
/// <param name="Rule">The rule and its status.</param>
/// <param name="P10M">Distance in m that nine in ten exceed.</param>
/// <param name="P50M">Median distance in m.</param>
/// <param name="P90M">Distance in m that one in ten exceeds.</param>
public sealed record BandRangeResponse(double LowMhz, double HighMhz, string Rule, double P10M, double P50M, double P90M);

/// <summary>Expected range with a spacer under the tag.</summary>
/// <param name="AddedStandoffMm">Spacing in mm between tag and surface.</param>
/// <param name="P10M">Distance in m that nine in ten exceed.</param>
/// <param name="P50M">Median distance in m.</param>
/// <param name="P90M">Distance in m that one in ten exceeds.</param>
/// <param name="Reads">Whether it usefully reads at that spacing.</param>
public sealed record StandoffPointResponse(double AddedStandoffMm, double P10M, double P50M, double P90M, bool Reads);

/// <summary>One step of the loss budget.</summary>
/// <param name="Step">What it is.</param>
/// <param name="ValueDb">Contribution in dB (dBm where the step is a power).</param>
/// <param name="LevelDbm">Level in dBm after this step.</param>
/// <param name="Note">How it came about.</param>
/// <param name="Source">Source of the formula or value.</param>
public sealed record LossBudgetLineResponse(string Step, double ValueDb, double LevelDbm, string Note, string Source);

/// <summary>How to fix the tag.</summary>
/// <param name="Method">Id in /v1/attachment-methods.</param>
/// <param name="Name">Plain name.</param>
/// <param name="Steps">The fitter's steps, in order.</param>
/// <param name="Minutes">Minutes to prepare, fix, encode, check and record; planning value.</param>
public sealed record CandidateAttachmentResponse(string Method, string Name, IReadOnlyList<string> Steps, double Minutes);

/// <summary>Expected life of the attachment (Weibull).</summary>
/// <param name="Shape">Weibull shape, a pure number.</param>
/// <param name="ScaleYears">Weibull scale in years.</param>
/// <param name="MedianYears">Median life in years.</param>
/// <param name="SurvivesServiceProbability">Probability, 0 to 1, of outliving the asset's remaining life.</param>
/// <param name="Basis">What the figures rest on.</param>
public sealed record CandidateLifeResponse(
    double Shape, double ScaleYears, double MedianYears, double SurvivesServiceProbability, string Basis);

/// <summary>Lifetime cost of one tag choice.</summary>
/// <param name="PresentValue">Present value in the currency.</param>
/// <param name="Currency">ISO 4217 code.</param>
/// <param name="P10">Lower end of the expected cost's uncertainty, in the currency.</param>
/// <param name="P90">Upper end of the expected cost's uncertainty, in the currency.</param>
/// <param name="Components">The parts; they add up to the present value.</param>
public sealed record LifetimeCostResponse(
    decimal PresentValue, string Currency, decimal P10, decimal P90, IReadOnlyList<CostComponentResponse> Components);

/// <summary>One part of a lifetime cost.</summary>
/// <param name="Component">Id of the part.</param>
/// <param name="Name">Plain name.</param>
/// <param name="PresentValue">Present value in the currency.</param>
/// <param name="Working">How it came about.</param>
public sealed record CostComponentResponse(string Component, string Name, decimal PresentValue, string Working);

/// <summary>A rule that does not hold, or only just.</summary>
/// <param name="Rule">Id of the rule.</param>
/// <param name="Family">Family of the rule.</param>
/// <param name="Verdict">marginal or fail.</param>
/// <param name="Needed">What the asset asks for.</param>
/// <param name="Offered">What the class or its fixing offers.</param>
/// <param name="Sentence">In words.</param>
public sealed record RejectionResponse(
    string Rule, string Family, string Verdict, string Needed, string Offered, string Sentence);

/// <summary>Why no class suits.</summary>
/// <param name="Summary">In one sentence.</param>
/// <param name="Changes">Single changes that would let a class in, cheapest class first.</param>
public sealed record NoneBecauseResponse(string Summary, IReadOnlyList<NeededChangeResponse> Changes);

/// <summary>One change that would let a class in.</summary>
/// <param name="What">What has to change.</param>
/// <param name="From">As it is now.</param>
/// <param name="To">As it would have to be.</param>
/// <param name="TagClassId">The class that would then suit.</param>
/// <param name="Sentence">In words.</param>
public sealed record NeededChangeResponse(string What, string From, string To, string TagClassId, string Sentence);

/// <summary>How the record was understood.</summary>
/// <param name="ProfileId">Id in /v1/asset-profiles.</param>
/// <param name="Name">Plain name.</param>
/// <param name="Confidence">0 (nothing recognised) to 1.</param>
/// <param name="MatchedWords">Words of the record that pointed there.</param>
/// <param name="OtherProfileIds">Other profiles that came close.</param>
public sealed record ProfileMatchResponse(
    string ProfileId, string Name, double Confidence, IReadOnlyList<string> MatchedWords, IReadOnlyList<string> OtherProfileIds);

/// <summary>A gap that was filled.</summary>
/// <param name="Pointer">JSON pointer of the field.</param>
/// <param name="Assumed">What was assumed.</param>
/// <param name="Because">Why.</param>
/// <param name="Basis">profile, setting, default or derived.</param>
/// <param name="Confidence">0 to 1.</param>
public sealed record AssumptionResponse(string Pointer, string Assumed, string Because, string Basis, double Confidence);

/// <summary>A question whose answer could change the choice or its cost.</summary>
/// <param name="Pointer">JSON pointer of the field to send.</param>
/// <param name="Question">The question.</param>
/// <param name="Assumed">What is assumed until then.</param>
/// <param name="Options">Plausible answers and what each would change.</param>
/// <param name="ExpectedSaving">What asking saves on average, in the answer's currency.</param>
public sealed record QuestionResponse(
    string Pointer, string Question, string Assumed, IReadOnlyList<QuestionOptionResponse> Options, decimal ExpectedSaving);

/// <summary>A plausible answer.</summary>
/// <param name="Answer">The answer.</param>
/// <param name="Share">How likely, 0 to 1; planning value.</param>
/// <param name="TagClassId">The class that would be chosen; null if none would suit.</param>
/// <param name="ChangesChoice">Whether that differs from the present choice.</param>
public sealed record QuestionOptionResponse(string Answer, double Share, string? TagClassId, bool ChangesChoice);

/// <summary>A caution. None claims to be complete.</summary>
/// <param name="Id">Id of the caution.</param>
/// <param name="Hazard">What can hurt.</param>
/// <param name="Precaution">What to do about it.</param>
/// <param name="WhoDecides">Whose word counts.</param>
public sealed record CautionResponse(string Id, string Hazard, string Precaution, string WhoDecides);

/// <summary>Something else to know about this record.</summary>
/// <param name="Code">Stable code.</param>
/// <param name="Pointer">JSON pointer of the field it is about.</param>
/// <param name="Text">In words.</param>
public sealed record NoticeResponse(string Code, string Pointer, string Text);
