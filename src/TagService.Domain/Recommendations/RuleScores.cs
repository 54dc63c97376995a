using System.Runtime.InteropServices;
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
    private readonly ResolvedAsset _asset;

    // Verdicts on the original asset, and the rules that are to be judged anew on this one.
    private readonly VerdictTable _classes;
    private readonly VerdictTable _methods;
    private readonly VerdictTable _pairs;
    private readonly ulong _staleOfClass;
    private readonly ulong _staleOfMethod;
    private readonly ulong _staleOfPair;
    private List<UnbrokenPair>? _unbroken;

    public RuleScores(RecommendationContext context, ResolvedAsset asset)
    {
        _catalogue = context.Catalogue;
        _asset = asset;
        _classes = new(RuleScope.TagClass, context, asset);
        _methods = new(RuleScope.Method, context, asset);
        _pairs = new(RuleScope.Both, context, asset);
    }

    private RuleScores(RuleScores original, ResolvedAsset varied, ulong staleOfClass, ulong staleOfMethod, ulong staleOfPair)
    {
        _catalogue = original._catalogue;
        _asset = varied;
        _classes = original._classes;
        _methods = original._methods;
        _pairs = original._pairs;
        _staleOfClass = staleOfClass;
        _staleOfMethod = staleOfMethod;
        _staleOfPair = staleOfPair;
    }

    /// <summary>The scores of <paramref name="varied"/>; these where no rule reads what differs.</summary>
    /// <param name="varied">The varied asset.</param>
    /// <param name="differences">The fields in which it differs from the original asset, of which these are the scores.</param>
    public RuleScores Vary(ResolvedAsset varied, AssetFields differences)
    {
        ulong c = _classes.StaleBy(differences), m = _methods.StaleBy(differences), p = _pairs.StaleBy(differences);
        return (c | m | p) == 0 ? this : new(this, varied, c, m, p);
    }

    /// <summary>The pairs that break no rule, in the order of the catalogue.</summary>
    public ReadOnlySpan<UnbrokenPair> Unbroken => CollectionsMarshal.AsSpan(_unbroken ??= FindUnbroken());

    /// <summary>Score of one pair: its class, its fixing and what depends on both.</summary>
    public RuleScore Of(int pair)
    {
        var (tagClass, method) = _catalogue.Pairs[pair];
        VerdictSet c = OfClass(tagClass), m = OfMethod(method), p = _pairs.Of(pair, _asset, _staleOfPair);
        return new(c.Fails + m.Fails + p.Fails, c.Marginals + m.Marginals + p.Marginals);
    }

    /// <summary>Rules that class and fixing break each for itself: never more than the pair does.</summary>
    public int FailsApart(int pair)
    {
        var (tagClass, method) = _catalogue.Pairs[pair];
        return OfClass(tagClass).Fails + OfMethod(method).Fails;
    }

    /// <summary>How many rules each class breaks with its best fixing, exact for the best classes.</summary>
    /// <param name="fails">Takes the number for each class: exact up to the number returned, else a lower bound above it.</param>
    /// <param name="classes">How many classes are wanted.</param>
    /// <returns>The least number of broken rules that so many classes, or all, do not exceed.</returns>
    public int FewestFails(int[] fails, int classes)
    {
        // What class and fixing break each for itself is a lower bound: rules on both are judged where it leaves room.
        for (var i = 0; i < fails.Length; i++)
        {
            fails[i] = int.MaxValue;
            for (var pair = _catalogue.FirstPair[i]; pair < _catalogue.FirstPair[i + 1]; pair++)
                fails[i] = Math.Min(fails[i], FailsApart(pair));
        }

        var limit = fails.Min();
        while (true)
        {
            int within = 0, next = int.MaxValue;
            for (var i = 0; i < fails.Length; i++)
            {
                if (fails[i] == limit)
                    fails[i] = FewestFails(i);
                if (fails[i] <= limit)
                    within++;
                else
                    next = Math.Min(next, fails[i]);
            }

            if (within >= Math.Min(classes, fails.Length))
                return limit;
            limit = next;
        }
    }

    /// <summary>How many rules a class breaks with the fixing that breaks the fewest.</summary>
    public int FewestFails(int tagClass)
    {
        var fewest = int.MaxValue;
        for (var pair = _catalogue.FirstPair[tagClass]; pair < _catalogue.FirstPair[tagClass + 1]; pair++)
        {
            if (FailsApart(pair) < fewest)
                fewest = Math.Min(fewest, Of(pair).Fails);
        }

        return fewest;
    }

    private VerdictSet OfClass(int tagClass) => _classes.Of(tagClass, _asset, _staleOfClass);

    private VerdictSet OfMethod(int method) => _methods.Of(method, _asset, _staleOfMethod);

    private List<UnbrokenPair> FindUnbroken()
    {
        var found = new List<UnbrokenPair>(32);
        // A fixing is met with many classes: -1 where it fails, else how many of its rules only just hold, and one.
        var marginalsOfMethod = new sbyte[_catalogue.Methods.Length];
        foreach (var tagClass in _classes.Survivors(_staleOfClass))
        {
            if (!_classes.TryPass(tagClass, _asset, _staleOfClass, out var ofClass))
                continue;
            for (var pair = _catalogue.FirstPair[tagClass]; pair < _catalogue.FirstPair[tagClass + 1]; pair++)
            {
                ref var ofMethod = ref marginalsOfMethod[_catalogue.Pairs[pair].Method];
                if (ofMethod == 0)
                    ofMethod = PassOfMethod(_catalogue.Pairs[pair].Method);
                if (ofMethod > 0 && _pairs.TryPass(pair, _asset, _staleOfPair, out var ofPair))
                    found.Add(new(pair, ofClass.Marginals + ofMethod - 1 + ofPair.Marginals));
            }
        }

        return found;
    }

    private sbyte PassOfMethod(int method) =>
        (sbyte)(_methods.TryPass(method, _asset, _staleOfMethod, out var set) ? set.Marginals + 1 : -1);
}
