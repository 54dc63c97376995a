using TagService.Domain.Suitability;

namespace TagService.Domain.Recommendations;

/// <summary>
/// How many rules each class, fixing and pair breaks on one asset. A varied asset starts from the scores of the original
/// and takes back and adds anew only the rules that read what was varied.
/// </summary>
internal sealed class RuleScores
{
    private readonly CompiledCatalogue _catalogue;
    private readonly DateOnly? _asOf;
    private readonly RuleScore[] _ofClass;
    private readonly RuleScore[] _ofMethod;
    private readonly RuleScore[] _ofPair;

    public RuleScores(RecommendationContext context, ResolvedAsset asset)
    {
        var catalogue = _catalogue = context.Catalogue;
        _asOf = context.AsOf;
        _ofClass = new RuleScore[catalogue.Classes.Length];
        _ofMethod = new RuleScore[catalogue.Methods.Length];
        _ofPair = new RuleScore[catalogue.Pairs.Length];
        foreach (var rule in SuitabilityRules.All)
            Add(rule, asset, 1);
    }

    private RuleScores(RuleScores from)
    {
        _catalogue = from._catalogue;
        _asOf = from._asOf;
        _ofClass = (RuleScore[])from._ofClass.Clone();
        _ofMethod = (RuleScore[])from._ofMethod.Clone();
        _ofPair = (RuleScore[])from._ofPair.Clone();
    }

    /// <summary>The scores of <paramref name="varied"/>, which differs from <paramref name="asset"/> in some fields.</summary>
    public RuleScores Vary(ResolvedAsset asset, ResolvedAsset varied, AssetFields differences)
    {
        RuleScores? scores = null;
        foreach (var rule in SuitabilityRules.All)
        {
            if ((rule.Reads & differences) == 0)
                continue;
            scores ??= new(this);
            scores.Add(rule, asset, -1);
            scores.Add(rule, varied, 1);
        }

        return scores ?? this;
    }

    /// <summary>Score of one pair: its class, its fixing and what depends on both.</summary>
    public RuleScore Of(int pair)
    {
        var (tagClass, method) = _catalogue.Pairs[pair];
        return _ofClass[tagClass] + _ofMethod[method] + _ofPair[pair];
    }

    private void Add(ISuitabilityRule rule, ResolvedAsset asset, int sign)
    {
        var (classes, methods, pairs) = (_catalogue.Classes, _catalogue.Methods, _catalogue.Pairs);
        switch (rule.Scope)
        {
            case RuleScope.TagClass:
                for (var i = 0; i < classes.Length; i++)
                    _ofClass[i] += RuleScore.Of(rule.Evaluate(new(asset, classes[i], methods[0], _asOf)).Verdict, sign);
                break;
            case RuleScope.Method:
                for (var i = 0; i < methods.Length; i++)
                    _ofMethod[i] += RuleScore.Of(rule.Evaluate(new(asset, classes[0], methods[i], _asOf)).Verdict, sign);
                break;
            default:
                for (var i = 0; i < pairs.Length; i++)
                    _ofPair[i] += RuleScore.Of(rule.Evaluate(new(asset, classes[pairs[i].Class], methods[pairs[i].Method], _asOf)).Verdict, sign);
                break;
        }
    }
}
