using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>What every rule has in common: its name, its family, what it looks at.</summary>
internal abstract class SuitabilityRule(string id, string family, RuleScope scope, AssetFields reads)
    : ISuitabilityRule
{
    public string Id { get; } = id;

    public string Family { get; } = family;

    public RuleScope Scope { get; } = scope;

    public AssetFields Reads { get; } = reads;

    public abstract RuleFinding Evaluate(in SuitabilityCase c);

    /// <summary>The verdict alone, for every class and fixing.</summary>
    /// <remarks>
    /// Most rules say the same, <c>Evaluate(c).Verdict</c>: only in a sealed class does the compiler know which Evaluate is meant, and drops
    /// the two values that nobody reads. Those that walk lists compare sets instead; that both agree is tested.
    /// </remarks>
    public abstract RuleVerdict Judge(in SuitabilityCase c);

    public abstract string Explain(in SuitabilityCase c, in RuleFinding finding);
}
