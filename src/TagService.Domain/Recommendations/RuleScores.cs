using TagService.Domain.Suitability;
using TagService.Domain.Suitability.Rules;

namespace TagService.Domain.Recommendations;

/// <summary>
/// How many rules each pair of class and fixing breaks on one asset. What depends on class and fixing together is judged
/// last: most pairs are out before.
/// </summary>
internal sealed class RuleScores
{
    private const int MostOnStack = 1024;

    private readonly CompiledCatalogue _catalogue;
    private readonly ResolvedAsset _asset;

    // Verdicts on the original asset, and the rules that are to be judged anew on this one.
    private readonly VerdictTable _classes;
    private readonly VerdictTable _methods;
    private readonly VerdictTable _pairs;
    private readonly ulong _staleOfClass;
    private readonly ulong _staleOfMethod;
    private readonly ulong _staleOfPair;
    private readonly RuleScores _original;
    private sbyte[]? _marginalsOfMethods;
    private UnbrokenPair[]? _unbroken;

    public RuleScores(RecommendationContext context, ResolvedAsset asset)
    {
        _catalogue = context.Catalogue;
        _original = this;
        _asset = asset;
        _classes = new(RuleScope.TagClass, context, asset);
        _methods = new(RuleScope.Method, context, asset);
        _pairs = new(RuleScope.Both, context, asset);
    }

    private RuleScores(RuleScores original, ResolvedAsset varied, ulong staleOfClass, ulong staleOfMethod, ulong staleOfPair)
    {
        _catalogue = original._catalogue;
        _original = original;
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
    public ReadOnlySpan<UnbrokenPair> Unbroken => _unbroken ??= FindUnbroken();

    /// <summary>Score of one pair: its class, its fixing and what depends on both.</summary>
    public RuleScore Of(int pair)
    {
        var (tagClass, method) = _catalogue.Pairs[pair];
        VerdictSet c = OfClass(tagClass), m = OfMethod(method), p = _pairs.Of(pair, _asset, _staleOfPair);
        return new(c.Fails + m.Fails + p.Fails, c.Marginals + m.Marginals + p.Marginals);
    }

    /// <summary>How many rules each class breaks with its best fixing, exact for the best classes.</summary>
    /// <param name="fails">Takes the number for each class: exact up to the number returned, else a lower bound above it.</param>
    /// <param name="classes">How many classes are wanted.</param>
    /// <returns>The least number of broken rules that so many classes, or all, do not exceed.</returns>
    public int FewestFails(int[] fails, int classes)
    {
        var limit = 0;
        while (true)
        {
            int within = 0, next = int.MaxValue;
            for (var i = 0; i < fails.Length; i++)
            {
                // Lower numbers are exact from an earlier round.
                if (fails[i] == limit)
                    fails[i] = FewestFails(i, limit);
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
    public int FewestFails(int tagClass) => FewestFails(tagClass, int.MaxValue);

    /// <summary>The same, exact up to a limit, else a lower bound above it: what is out is not judged to the end.</summary>
    private int FewestFails(int tagClass, int limit)
    {
        var ofClass = OfClass(tagClass, limit).Fails;
        if (ofClass > limit)
            return ofClass;
        var fewest = int.MaxValue;
        for (var pair = _catalogue.FirstPair[tagClass]; pair < _catalogue.FirstPair[tagClass + 1]; pair++)
        {
            var fails = ofClass + OfMethod(_catalogue.Pairs[pair].Method, limit).Fails;
            if (fails <= limit && fails < fewest)
                fails += _pairs.Of(pair, _asset, _staleOfPair).Fails;
            fewest = Math.Min(fewest, fails);
        }

        return fewest;
    }

    // At least until more rules fail than matters.
    private VerdictSet OfClass(int tagClass, int mostFails = int.MaxValue) =>
        _staleOfClass == 0 ? _classes.UpTo(tagClass, mostFails) : _classes.Of(tagClass, _asset, _staleOfClass);

    private VerdictSet OfMethod(int method, int mostFails = int.MaxValue) =>
        _staleOfMethod == 0 ? _methods.UpTo(method, mostFails) : _methods.Of(method, _asset, _staleOfMethod);

    // Whether a fixing or a pair passes is a coin toss to the processor: each is written down before that is known, and counted if it does.
    private UnbrokenPair[] FindUnbroken()
    {
        var ofMethod = _staleOfMethod == 0 ? _original.MarginalsOfMethods : FindMarginalsOfMethods();
        var pairs = _catalogue.Pairs;
        Span<UnbrokenPair> found = pairs.Length < MostOnStack ? stackalloc UnbrokenPair[pairs.Length + 1] : new UnbrokenPair[pairs.Length + 1];
        var candidates = 0;
        foreach (var tagClass in _classes.PassingBeside(_staleOfClass))
        {
            if (!_classes.TryPassStale(tagClass, _asset, _staleOfClass, out var set))
                continue;
            for (var pair = _catalogue.FirstPair[tagClass]; pair < _catalogue.FirstPair[tagClass + 1]; pair++)
            {
                var marginals = ofMethod[pairs[pair].Method];
                found[candidates] = new(pair, set.Marginals + marginals);
                candidates += marginals >= 0 ? 1 : 0;
            }
        }

        var count = 0;
        foreach (var (pair, marginals) in found[..candidates])
        {
            var passes = _pairs.TryPass(pair, _asset, _staleOfPair, out var set);
            found[count] = new(pair, marginals + set.Marginals);
            count += passes ? 1 : 0;
        }

        return found[..count].ToArray();
    }

    private sbyte[] MarginalsOfMethods => _marginalsOfMethods ??= FindMarginalsOfMethods();

    /// <summary>How many rules only just hold on each fixing; -1 where one does not.</summary>
    private sbyte[] FindMarginalsOfMethods()
    {
        var marginals = new sbyte[_catalogue.Methods.Length];
        Array.Fill(marginals, (sbyte)-1);
        foreach (var method in _methods.PassingBeside(_staleOfMethod))
        {
            if (_methods.TryPassStale(method, _asset, _staleOfMethod, out var set))
                marginals[method] = (sbyte)set.Marginals;
        }

        return marginals;
    }
}
