using TagService.Domain.Profiles;
using TagService.Domain.Reference;
using TagService.Domain.Suitability;

namespace TagService.Domain.Recommendations;

/// <summary>What the caller wants to see.</summary>
/// <param name="IncludeAll">All classes instead of the best five.</param>
/// <param name="IncludeQuestions">Work out what to ask; the dearest part of an answer.</param>
public sealed record RecommendationOptions(bool IncludeAll = false, bool IncludeQuestions = true);

/// <summary>The main job: from any asset record to ranked tag classes with expected range, life and lifetime cost.</summary>
public static class RecommendationEngine
{
    /// <summary>Version of rules and formulas: raised by hand whenever code changes an answer.</summary>
    private const string CodeVersion = "3";

    /// <summary>
    /// Moves whenever an answer could: the version of the code, and a hash over all reference tables but the tag classes,
    /// which have a version of their own.
    /// </summary>
    public static string Version { get; } = $"{CodeVersion}.{ReferenceData.Hash(except: "tag-classes.data.json")}";

    /// <summary>Candidates shown unless all are asked for.</summary>
    public const int ShownCandidates = 5;

    /// <summary>
    /// Answers any record: gaps are filled from profile, setting and defaults and listed as assumptions; every class is
    /// judged by all rules, its range predicted and its lifetime cost worked out; the cheapest that fits is chosen.
    /// Pure: the same record gives the same answer.
    /// </summary>
    /// <param name="record">What is known of the asset; contradictions are the caller's to refuse first.</param>
    /// <param name="options">What to include; the best five with questions if absent.</param>
    /// <param name="context">Catalogue, measured ranges and day; the built-in catalogue if absent.</param>
    public static RecommendationAnswer Recommend(
        AssetRecord record, RecommendationOptions? options = null, RecommendationContext? context = null)
    {
        options ??= new();
        var resolution = ProfileResolution.Resolve(record);
        var asset = resolution.Asset;
        var judge = new AssetJudge(asset, context ?? RecommendationContext.BuiltIn);
        var ranked = options.IncludeAll ? judge.RankAll() : judge.Rank(ShownCandidates);
        if (!ranked[0].Fits)
            ranked = judge.RankAll();
        var shown = options.IncludeAll ? ranked.Length : Math.Min(ShownCandidates, ranked.Length);
        var candidates = new Candidate[shown];
        for (var i = 0; i < shown; i++)
            candidates[i] = CandidateDescription.Of(judge, ranked[i]);
        var best = ranked[0].Fits ? candidates[0] : null;
        return new()
        {
            Recommendation = best,
            NoneBecause = best is null ? Remedies.Find(judge, ranked) : null,
            Candidates = candidates,
            Profile = resolution.Match,
            MaterialId = asset.Material.Id,
            Assumptions = resolution.Assumptions,
            Questions = options.IncludeQuestions ? QuestionFinder.Find(record, resolution, judge, ranked[0]) : [],
            Cautions = CautionSelection.For(asset, best?.TagClass, best?.Method),
            Currency = asset.Currency,
            CatalogueVersion = judge.Context.CatalogueVersion,
            Notices = [.. resolution.Notices, .. ClassNotices.Of(judge.Context, candidates, asset.Currency)],
        };
    }
}
