using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;
using TagService.Domain.Words;

namespace TagService.Domain.Suitability;

/// <summary>One tag class fixed in one way on one asset.</summary>
/// <param name="Asset">The asset with every gap filled.</param>
/// <param name="TagClass">The tag class.</param>
/// <param name="Method">How it is fixed.</param>
/// <param name="AsOf">Day of the judgement, for certificates that expire; absent: expiry cannot be checked.</param>
public readonly record struct SuitabilityCase(
    ResolvedAsset Asset, TagClass TagClass, AttachmentMethod Method, DateOnly? AsOf = null);

/// <summary>
/// A rule compares one need of the asset with one limit of tag class or fixing. Rules are independent of each other
/// and all are evaluated, so that a rejection lists every reason.
/// </summary>
public interface ISuitabilityRule
{
    /// <summary>Stable kebab-case id.</summary>
    string Id { get; }

    /// <summary>Family of design: room, surface, temperature, water, ...</summary>
    string Family { get; }

    /// <summary>Which parts of the case it looks at beside the asset.</summary>
    RuleScope Scope { get; }

    /// <summary>Which fields of the asset it looks at: a change of any other cannot change its verdict (tested).</summary>
    AssetFields Reads { get; }

    /// <summary>Judges without building text: this runs for every class and fixing.</summary>
    RuleFinding Evaluate(in SuitabilityCase c);

    /// <summary>One sentence for people, for a finding that is not a pass.</summary>
    string Explain(in SuitabilityCase c, in RuleFinding finding);
}

/// <summary>Which parts of a case a rule looks at beside the asset, so that a caller need not repeat itself.</summary>
public enum RuleScope
{
    /// <summary>The tag class only: the same for every fixing.</summary>
    TagClass,

    /// <summary>The fixing only: the same for every tag class.</summary>
    Method,

    /// <summary>Both.</summary>
    Both,
}

/// <summary>Judgement of a rule, from best to worst.</summary>
public enum RuleVerdict
{
    /// <summary>Holds.</summary>
    Pass,

    /// <summary>Holds, with little to spare or on a condition; shortens the life or needs a check.</summary>
    Marginal,

    /// <summary>Does not hold.</summary>
    Fail,
}

/// <summary>A judgement with the two values compared.</summary>
/// <param name="Verdict">The judgement.</param>
/// <param name="Needed">What the asset asks for.</param>
/// <param name="Offered">What tag class or fixing offers.</param>
public readonly record struct RuleFinding(RuleVerdict Verdict, RuleValue Needed, RuleValue Offered)
{
    /// <summary>A pass without values.</summary>
    public static RuleFinding Pass => default;
}

/// <summary>A compared value: a number with its unit, or a word.</summary>
/// <param name="Number">The number, if it is one.</param>
/// <param name="Unit">Unit of the number.</param>
/// <param name="Text">The word, if it is one.</param>
public readonly record struct RuleValue(double? Number, string? Unit, string? Text)
{
    /// <summary>A number with its unit.</summary>
    public static RuleValue Of(double number, string unit) => new(number, unit, null);

    /// <summary>A word.</summary>
    public static RuleValue Of(string text) => new(null, null, text);

    /// <summary>The value as people read it, culture-invariant.</summary>
    public override string ToString() =>
        Number is not { } n ? Text ?? ""
        : string.IsNullOrEmpty(Unit) ? InvariantText.Of($"{n:0.##}")
        : InvariantText.Of($"{n:0.##} {Unit}");
}
