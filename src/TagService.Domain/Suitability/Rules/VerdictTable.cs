using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>
/// Verdicts of the rules of one scope on every tag class, fixing or pair of a catalogue. Rules are judged when first asked for and only
/// until enough fail: most of a catalogue is out at once. For a varied asset only the rules that read what was varied are judged anew.
/// </summary>
internal sealed class VerdictTable
{
    private readonly RuleGroup _rules;
    private readonly RuleScope _scope;
    private readonly CompiledCatalogue _catalogue;
    private readonly ResolvedAsset _asset;
    private readonly DateOnly? _asOf;
    private readonly VerdictSet[] _sets;

    // The places of the rules not judged yet, by index.
    private readonly ulong[] _open;
    private List<int>? _passing;
    private ulong _passingBeside;

    public VerdictTable(RuleScope scope, RecommendationContext context, ResolvedAsset asset)
    {
        _scope = scope;
        _rules = SuitabilityRules.GroupOf(scope);
        _catalogue = context.Catalogue;
        _asset = asset;
        _asOf = context.AsOf;
        var count = scope switch
        {
            RuleScope.TagClass => _catalogue.Classes.Length,
            RuleScope.Method => _catalogue.Methods.Length,
            _ => _catalogue.Pairs.Length,
        };
        _sets = new VerdictSet[count];
        _open = new ulong[count];
        Array.Fill(_open, _rules.All);
    }

    /// <summary>The places of the rules that a variation of some fields makes stale.</summary>
    public ulong StaleBy(AssetFields differences) => _rules.PlacesReading(differences);

    /// <summary>All verdicts on one class, fixing or pair, by its index.</summary>
    public VerdictSet Of(int index) => UpTo(index, int.MaxValue);

    /// <summary>Verdicts until more than <paramref name="mostFails"/> rules fail: all of them, if no more do.</summary>
    public VerdictSet UpTo(int index, int mostFails)
    {
        ref var open = ref _open[index];
        if (open != 0)
            _sets[index] = _rules.Judge(CaseOf(index, _asset), _sets[index], ref open, mostFails);
        return _sets[index];
    }

    /// <summary>All verdicts on a varied asset; not remembered.</summary>
    public VerdictSet Of(int index, ResolvedAsset varied, ulong stale) =>
        stale == 0 ? Of(index) : _rules.Judge(CaseOf(index, varied), Of(index).Without(stale), ref stale, int.MaxValue);

    /// <summary>The verdicts on a varied asset if no rule fails.</summary>
    public bool TryPass(int index, ResolvedAsset varied, ulong stale, out VerdictSet set)
    {
        if (PassesBeside(index, stale))
            return TryPassStale(index, varied, stale, out set);
        set = default;
        return false;
    }

    /// <summary>The same for one of <see cref="PassingBeside"/>.</summary>
    public bool TryPassStale(int index, ResolvedAsset varied, ulong stale, out VerdictSet set)
    {
        set = _sets[index].Without(stale);
        if (stale != 0)
            set = _rules.Judge(CaseOf(index, varied), set, ref stale, 0);
        return !set.HasFail;
    }

    /// <summary>The indices on which no other rule than the stale ones fails. All answers to one question make the same rules stale.</summary>
    public List<int> PassingBeside(ulong stale)
    {
        if (_passing is null || _passingBeside != stale)
        {
            _passing = new(_sets.Length);
            _passingBeside = stale;
            for (var i = 0; i < _sets.Length; i++)
            {
                if (PassesBeside(i, stale))
                    _passing.Add(i);
            }
        }

        return _passing;
    }

    private bool PassesBeside(int index, ulong stale)
    {
        var set = _sets[index].Without(stale);
        var open = _open[index] & ~stale;
        if (open == 0 || set.HasFail)
            return !set.HasFail;
        var judged = open;
        set = _rules.Judge(CaseOf(index, _asset), set, ref open, 0);
        _sets[index] = new(_sets[index].Bits | set.Bits);
        _open[index] &= ~(judged & ~open);
        return !set.HasFail;
    }

    private SuitabilityCase CaseOf(int index, ResolvedAsset asset)
    {
        var (tagClass, method) = _scope switch
        {
            RuleScope.TagClass => (index, 0),
            RuleScope.Method => (0, index),
            _ => (_catalogue.Pairs[index].Class, _catalogue.Pairs[index].Method),
        };
        return new(asset, _catalogue.Classes[tagClass], _catalogue.Methods[method], _asOf);
    }
}
