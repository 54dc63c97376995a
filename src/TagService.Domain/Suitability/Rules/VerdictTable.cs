using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>
/// Verdicts of the rules of one scope on every tag class, fixing or pair of a catalogue, each judged when first asked for. For a varied
/// asset only the rules that read what was varied are judged anew, and only where no other rule fails already.
/// </summary>
internal sealed class VerdictTable
{
    private const ulong Known = 1UL << 63;

    private readonly RuleGroup _rules;
    private readonly RuleScope _scope;
    private readonly CompiledCatalogue _catalogue;
    private readonly ResolvedAsset _asset;
    private readonly DateOnly? _asOf;
    private readonly ulong[] _sets;
    private List<int>? _survivors;
    private ulong _survivorsOf;

    public VerdictTable(RuleScope scope, RecommendationContext context, ResolvedAsset asset)
    {
        _scope = scope;
        _rules = SuitabilityRules.GroupOf(scope);
        _catalogue = context.Catalogue;
        _asset = asset;
        _asOf = context.AsOf;
        _sets = new ulong[scope switch
        {
            RuleScope.TagClass => _catalogue.Classes.Length,
            RuleScope.Method => _catalogue.Methods.Length,
            _ => _catalogue.Pairs.Length,
        }];
    }

    /// <summary>The places of the rules that a variation of some fields makes stale.</summary>
    public ulong StaleBy(AssetFields differences) => _rules.PlacesReading(differences);

    /// <summary>All verdicts on one class, fixing or pair, by its index.</summary>
    public VerdictSet Of(int index)
    {
        if (_sets[index] == 0)
            _sets[index] = _rules.Judge(CaseOf(index, _asset), default, _rules.All).Bits | Known;
        return new(_sets[index] & ~Known);
    }

    /// <summary>The same on a varied asset; not remembered.</summary>
    public VerdictSet Of(int index, ResolvedAsset varied, ulong stale) =>
        stale == 0 ? Of(index) : _rules.Judge(CaseOf(index, varied), Of(index), stale);

    /// <summary>The verdicts on a varied asset if no rule fails.</summary>
    public bool TryPass(int index, ResolvedAsset varied, ulong stale, out VerdictSet set)
    {
        set = Of(index);
        if (stale == 0 || set.Without(stale).HasFail)
            return !set.HasFail;
        return _rules.TryPass(CaseOf(index, varied), set, stale, out set);
    }

    /// <summary>The indices on which no other rule than the stale ones fails. All answers to one question make the same rules stale.</summary>
    public List<int> Survivors(ulong stale)
    {
        if (_survivors is null || _survivorsOf != stale)
        {
            _survivors = new(_sets.Length);
            _survivorsOf = stale;
            for (var i = 0; i < _sets.Length; i++)
            {
                if (!Of(i).Without(stale).HasFail)
                    _survivors.Add(i);
            }
        }

        return _survivors;
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
