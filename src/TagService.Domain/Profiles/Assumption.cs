namespace TagService.Domain.Profiles;

/// <summary>Where an assumed value comes from.</summary>
public enum AssumptionBasis
{
    /// <summary>Typical of the category profile.</summary>
    Profile,

    /// <summary>Usual in such surroundings.</summary>
    Setting,

    /// <summary>The product's own default.</summary>
    Default,

    /// <summary>Follows from other fields.</summary>
    Derived,
}

/// <summary>One gap that was filled.</summary>
/// <param name="Pointer">JSON pointer of the field.</param>
/// <param name="Assumed">What was assumed, as text with its unit.</param>
/// <param name="Because">Why, in one sentence.</param>
/// <param name="Confidence">How likely it holds, 0 to 1; the rule stands at <see cref="Resolution.Assumptions"/>.</param>
/// <param name="Basis">Where it comes from.</param>
public sealed record Assumption(
    string Pointer, string Assumed, string Because, double Confidence, AssumptionBasis Basis);

/// <summary>Something else to know about a record: words that were not understood and what was done about them.</summary>
/// <param name="Pointer">JSON pointer of the field.</param>
/// <param name="Text">In words.</param>
/// <param name="Code">Stable code.</param>
public sealed record Notice(string Pointer, string Text, string Code);
