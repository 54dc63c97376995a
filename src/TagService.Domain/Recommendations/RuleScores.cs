using TagService.Domain.Suitability;
using TagService.Domain.Suitability.Rules;

namespace TagService.Domain.Recommendations;

/// <summary>
/// How many rules each pair of class and fixing breaks on one asset. What depends on class and fixing together is judged
/// last: most pairs are out before.
/// </summary>
internal sealed class RuleScores
{
    private readonly CompiledCatalogue _catalogue;
    private readonly VerdictTable _classes;
    private readonly VerdictTable _methods;
    private readonly VerdictTable _pairs;

    public RuleScores(RecommendationContext context, ResolvedAsset asset)
        : this(
            context.Catalogue,
            new(RuleScope.TagClass, context, asset),
            new(RuleScope.Method, context, asset),
            new(RuleScope.Both, context, asset))
    {
    }

    private RuleScores(CompiledCatalogue catalogue, VerdictTable classes, VerdictTable methods, VerdictTable pairs)
    {
        _catalogue = catalogue;
        _classes = classes;
        _methods = methods;
        _pairs = pairs;
    }

    /// <summary>The scores of <paramref name="varied"/>, which differs from this asset in some fields.</summary>
    public RuleScores Vary(ResolvedAsset varied, AssetFields differences)
    {
        var classes = _classes.Vary(varied, differences);
        var methods = _methods.Vary(varied, differences);
        var pairs = _pairs.Vary(varied, differences);
        return ReferenceEquals(classes, _classes) && ReferenceEquals(methods, _methods) && ReferenceEquals(pairs, _pairs)
            ? this
            : new(_catalogue, classes, methods, pairs);
    }

    /// <summary>Does the class break a rule whatever its fixing?</summary>
    public bool IsClassOut(int tagClass) => _classes.HasFail(tagClass);

    /// <summary>Does a pair whose class is not out break a rule?</summary>
    public bool IsPairOut(int pair) => _methods.HasFail(_catalogue.Pairs[pair].Method) || _pairs.HasFail(pair);

    /// <summary>Rules that class and fixing break each for itself: never more than the pair does.</summary>
    public int FailsApart(int pair)
    {
        var (tagClass, method) = _catalogue.Pairs[pair];
        return _classes.Of(tagClass).Fails + _methods.Of(method).Fails;
    }

    /// <summary>Score of one pair: its class, its fixing and what depends on both.</summary>
    public RuleScore Of(int pair)
    {
        var (tagClass, method) = _catalogue.Pairs[pair];
        VerdictSet c = _classes.Of(tagClass), m = _methods.Of(method), p = _pairs.Of(pair);
        return new(c.Fails + m.Fails + p.Fails, c.Marginals + m.Marginals + p.Marginals);
    }
}
