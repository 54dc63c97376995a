using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The fixing works on the kind of material and on this material.</summary>
/// <remarks>Source: common practice; the attachment methods' own rows.</remarks>
internal sealed class SurfaceRule() : SuitabilityRule("surface", "surface", RuleScope.Method, AssetFields.Material)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c)
    {
        var material = c.Asset.Material;
        var works = (c.Method.WorksOnKinds & (1u << (int)material.Kind)) != 0
            && (c.Method.OnlyMaterials is not { } only || Contains(only, material.Id))
            && (c.Method.ExceptMaterials is not { } except || !Contains(except, material.Id));
        return works
            ? RuleFinding.Pass
            : new(RuleVerdict.Fail, RuleValue.Of(material.Name), RuleValue.Of(c.Method.Name));
    }

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The surface is {finding.Needed}; {finding.Offered} does not work on it.";

    private static bool Contains(IReadOnlyList<string> list, string wanted)
    {
        for (var i = 0; i < list.Count; i++)
        {
            if (string.Equals(list[i], wanted, StringComparison.Ordinal))
                return true;
        }

        return false;
    }
}
