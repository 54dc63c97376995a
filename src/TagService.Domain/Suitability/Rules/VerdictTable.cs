using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>
/// Verdicts of the rules of one scope on every tag class, fixing or pair of a catalogue, each judged when first asked for. The table of a
/// varied asset judges anew only the rules that read what was varied.
/// </summary>
internal sealed class VerdictTable
{
    private const ulong Known = 1UL << 63;

    private readonly RuleGroup _rules;
    private readonly RuleScope _scope;
    private readonly CompiledCatalogue _catalogue;
    private readonly ResolvedAsset _asset;
    private readonly DateOnly? _asOf;
    private readonly VerdictTable? _before;
    private readonly ulong _stale;
    private readonly ulong[] _sets;

    public VerdictTable(RuleScope scope, RecommendationContext context, ResolvedAsset asset)
    {
        _scope = scope;
        _rules = SuitabilityRules.GroupOf(scope);
        _catalogue = context.Catalogue;
        _asset = asset;
        _asOf = context.AsOf;
        _stale = _rules.All;
        _sets = new ulong[scope switch
        {
            RuleScope.TagClass => _catalogue.Classes.Length,
            RuleScope.Method => _catalogue.Methods.Length,
            _ => _catalogue.Pairs.Length,
        }];
    }

    private VerdictTable(VerdictTable before, ResolvedAsset varied, ulong stale)
    {
        _scope = before._scope;
        _rules = before._rules;
        _catalogue = before._catalogue;
        _asset = varied;
        _asOf = before._asOf;
        _before = before;
        _stale = stale;
        _sets = new ulong[before._sets.Length];
    }

    /// <summary>The table of an asset that differs in some fields; this one where no rule reads them.</summary>
    public VerdictTable Vary(ResolvedAsset varied, AssetFields differences)
    {
        var stale = _rules.PlacesReading(differences);
        return stale == 0 ? this : new(this, varied, stale);
    }

    /// <summary>All verdicts on one class, fixing or pair, by its index.</summary>
    public VerdictSet Of(int index)
    {
        var set = _sets[index];
        if (set == 0)
            _sets[index] = set = _rules.Judge(CaseOf(index), _before?.Of(index) ?? default, _stale).Bits | Known;
        return new(set & ~Known);
    }

    /// <summary>Does any rule not hold? Often a rule that was not varied says so already.</summary>
    public bool HasFail(int index) =>
        (_sets[index] == 0 && _before is { } before && before.Of(index).Without(_stale).HasFail) || Of(index).HasFail;

    private SuitabilityCase CaseOf(int index)
    {
        var (tagClass, method) = _scope switch
        {
            RuleScope.TagClass => (index, 0),
            RuleScope.Method => (0, index),
            _ => (_catalogue.Pairs[index].Class, _catalogue.Pairs[index].Method),
        };
        return new(_asset, _catalogue.Classes[tagClass], _catalogue.Methods[method], _asOf);
    }
}
