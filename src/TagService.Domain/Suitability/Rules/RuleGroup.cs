using System.Numerics;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The rules of one scope, each with its place in a <see cref="VerdictSet"/>.</summary>
internal sealed class RuleGroup
{
    // Typed by the class they derive from: a virtual call is several times cheaper than one through the interface.
    private readonly SuitabilityRule[] _rules;
    private readonly AssetFields[] _reads;

    public RuleGroup(IEnumerable<SuitabilityRule> rules)
    {
        _rules = [.. rules];
        _reads = [.. _rules.Select(rule => rule.Reads)];
        if (_rules.Length > VerdictSet.MostRules)
            throw new InvalidOperationException($"A verdict set holds {VerdictSet.MostRules} rules of one scope, not {_rules.Length}.");
        for (var i = 0; i < _rules.Length; i++)
            All |= 1UL << (2 * i);
    }

    /// <summary>The places of all rules: the lower bit of each.</summary>
    public ulong All { get; }

    /// <summary>The places of the rules that read any of these fields.</summary>
    public ulong PlacesReading(AssetFields fields)
    {
        ulong places = 0;
        for (var i = 0; i < _reads.Length; i++)
            places |= (_reads[i] & fields) != 0 ? 1UL << (2 * i) : 0;

        return places;
    }

    /// <summary>Judges one case rule by rule until more rules fail than matters.</summary>
    /// <param name="c">The case.</param>
    /// <param name="set">Verdicts so far, passes at the open places.</param>
    /// <param name="open">Places of the rules to judge; those not reached are left.</param>
    /// <param name="mostFails">How many fails matter.</param>
    public VerdictSet Judge(in SuitabilityCase c, VerdictSet set, ref ulong open, int mostFails)
    {
        var bits = set.Bits;
        for (var fails = set.Fails; open != 0 && fails <= mostFails; open &= open - 1)
        {
            var place = BitOperations.TrailingZeroCount(open);
            var verdict = _rules[place >> 1].Judge(c);
            bits |= (ulong)verdict << place;
            if (verdict == RuleVerdict.Fail)
                fails++;
        }

        return new(bits);
    }
}
