using System.Numerics;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The rules of one scope, each with its place in a <see cref="VerdictSet"/>.</summary>
internal sealed class RuleGroup
{
    // Typed by the class they derive from: a virtual call is several times cheaper than one through the interface.
    private readonly SuitabilityRule[] _rules;

    public RuleGroup(IEnumerable<SuitabilityRule> rules)
    {
        _rules = [.. rules];
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
        for (var i = 0; i < _rules.Length; i++)
        {
            if ((_rules[i].Reads & fields) != 0)
                places |= 1UL << (2 * i);
        }

        return places;
    }

    /// <summary>Judges one case by the rules at <paramref name="places"/>; the other verdicts stay as they are.</summary>
    public VerdictSet Judge(in SuitabilityCase c, VerdictSet before, ulong places)
    {
        var bits = before.Without(places).Bits;
        for (; places != 0; places &= places - 1)
        {
            var place = BitOperations.TrailingZeroCount(places);
            bits |= (ulong)_rules[place >> 1].Evaluate(c).Verdict << place;
        }

        return new(bits);
    }

    /// <summary>The same for those who only want to know of passes: judges no further than the first rule that fails.</summary>
    public bool TryPass(in SuitabilityCase c, VerdictSet before, ulong places, out VerdictSet after)
    {
        after = before.Without(places);
        for (; places != 0 && !after.HasFail; places &= places - 1)
        {
            var place = BitOperations.TrailingZeroCount(places);
            after = new(after.Bits | ((ulong)_rules[place >> 1].Evaluate(c).Verdict << place));
        }

        return !after.HasFail;
    }
}
