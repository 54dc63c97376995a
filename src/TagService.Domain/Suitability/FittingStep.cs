namespace TagService.Domain.Suitability;

/// <summary>One step of the fitter's instruction.</summary>
/// <param name="Id">Stable kebab-case id.</param>
/// <param name="Phase">Where in the work it belongs.</param>
/// <param name="Text">What to do, in the imperative; may hold {placeholders} such as {applicationTemperatureMinC}.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="Caution">Id of the caution that goes with this step, if one does.</param>
/// <param name="ExtraMinutes">Minutes it adds when an asset needs it beyond the method's own steps.</param>
public sealed record FittingStep(
    string Id, FittingPhase Phase, string Text, string Source, string? Caution = null, double ExtraMinutes = 0);

/// <summary>Parts of a fitter's work, in the order in which they are done.</summary>
public enum FittingPhase
{
    /// <summary>Place, permit, surface, holes.</summary>
    Prepare,

    /// <summary>The tag comes on.</summary>
    Fix,

    /// <summary>Does it answer where it sits?</summary>
    Check,

    /// <summary>What was done is written down.</summary>
    Record,
}

/// <summary>A caution: hazard, precaution, who decides. None claims to be complete.</summary>
/// <param name="Id">Stable kebab-case id.</param>
/// <param name="Hazard">What can hurt.</param>
/// <param name="Precaution">What to do about it.</param>
/// <param name="WhoDecides">Whose word counts.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record Caution(string Id, string Hazard, string Precaution, string WhoDecides, string Source);
