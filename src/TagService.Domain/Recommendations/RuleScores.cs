using TagService.Domain.Suitability;

namespace TagService.Domain.Recommendations;

/// <summary>
/// How many rules each class, fixing and pair breaks on one asset. A varied asset starts from the scores of the original
/// and takes back and adds anew only the rules that read what was varied. What depends on class and fixing together is
/// judged when first asked for: most pairs are out before.
/// </summary>
internal sealed class RuleScores
{
    private static readonly AssetFields ReadByRules = ReadBy(SuitabilityRules.All);
    private static readonly AssetFields ReadByPairRules = ReadBy(SuitabilityRules.OfBoth);

    private readonly CompiledCatalogue _catalogue;
    private readonly ResolvedAsset _asset;
    private readonly DateOnly? _asOf;
    private readonly RuleScore[] _ofClass;
    private readonly RuleScore[] _ofMethod;
    private readonly RuleScore?[] _ofPair;

    public RuleScores(RecommendationContext context, ResolvedAsset asset)
    {
        _catalogue = context.Catalogue;
        _asset = asset;
        _asOf = context.AsOf;
        _ofClass = new RuleScore[_catalogue.Classes.Length];
        _ofMethod = new RuleScore[_catalogue.Methods.Length];
        _ofPair = new RuleScore?[_catalogue.Pairs.Length];
        foreach (var rule in SuitabilityRules.OfTagClass)
            AddToClasses(_ofClass, rule, asset, 1);
        foreach (var rule in SuitabilityRules.OfMethod)
            AddToMethods(_ofMethod, rule, asset, 1);
    }

    private RuleScores(RuleScores from, ResolvedAsset varied, AssetFields differences)
    {
        _catalogue = from._catalogue;
        _asset = varied;
        _asOf = from._asOf;
        _ofClass = Varied(from._ofClass, SuitabilityRules.OfTagClass, from._asset, differences, AddToClasses);
        _ofMethod = Varied(from._ofMethod, SuitabilityRules.OfMethod, from._asset, differences, AddToMethods);
        _ofPair = (ReadByPairRules & differences) == 0 ? from._ofPair : new RuleScore?[_catalogue.Pairs.Length];
    }

    /// <summary>The scores of <paramref name="varied"/>, which differs from this asset in some fields.</summary>
    public RuleScores Vary(ResolvedAsset varied, AssetFields differences) =>
        (ReadByRules & differences) == 0 ? this : new(this, varied, differences);

    /// <summary>Does the class or the fixing break a rule on its own?</summary>
    public bool IsOut(int pair)
    {
        var (tagClass, method) = _catalogue.Pairs[pair];
        return _ofClass[tagClass].Fails + _ofMethod[method].Fails > 0;
    }

    /// <summary>Score of one pair: its class, its fixing and what depends on both.</summary>
    public RuleScore Of(int pair)
    {
        var (tagClass, method) = _catalogue.Pairs[pair];
        return _ofClass[tagClass] + _ofMethod[method] + (_ofPair[pair] ??= OfPair(tagClass, method));
    }

    private RuleScore OfPair(int tagClass, int method)
    {
        var c = new SuitabilityCase(_asset, _catalogue.Classes[tagClass], _catalogue.Methods[method], _asOf);
        RuleScore score = default;
        foreach (var rule in SuitabilityRules.OfBoth)
            score += RuleScore.Of(rule.Evaluate(c).Verdict, 1);
        return score;
    }

    private RuleScore[] Varied(
        RuleScore[] before, IReadOnlyList<ISuitabilityRule> rules, ResolvedAsset asset, AssetFields differences,
        Action<RuleScore[], ISuitabilityRule, ResolvedAsset, int> add)
    {
        RuleScore[]? after = null;
        foreach (var rule in rules)
        {
            if ((rule.Reads & differences) == 0)
                continue;
            after ??= (RuleScore[])before.Clone();
            add(after, rule, asset, -1);
            add(after, rule, _asset, 1);
        }

        return after ?? before;
    }

    private static AssetFields ReadBy(IReadOnlyList<ISuitabilityRule> rules) =>
        rules.Aggregate(AssetFields.None, static (fields, rule) => fields | rule.Reads);

    private void AddToClasses(RuleScore[] scores, ISuitabilityRule rule, ResolvedAsset asset, int sign)
    {
        for (var i = 0; i < scores.Length; i++)
            scores[i] += RuleScore.Of(rule.Evaluate(new(asset, _catalogue.Classes[i], _catalogue.Methods[0], _asOf)).Verdict, sign);
    }

    private void AddToMethods(RuleScore[] scores, ISuitabilityRule rule, ResolvedAsset asset, int sign)
    {
        for (var i = 0; i < scores.Length; i++)
            scores[i] += RuleScore.Of(rule.Evaluate(new(asset, _catalogue.Classes[0], _catalogue.Methods[i], _asOf)).Verdict, sign);
    }
}
