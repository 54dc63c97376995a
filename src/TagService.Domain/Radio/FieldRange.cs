namespace TagService.Domain.Radio;

/// <summary>What somebody found in the field about one tag of a class on a surface, at a stated reading situation (power, reader, place).</summary>
/// <param name="Reading">Reader, power, region and place of the finding.</param>
/// <param name="DistanceM">The distance found, m, above 0; its meaning is <paramref name="Kind"/>.</param>
/// <param name="Kind">What the distance means.</param>
/// <param name="CheckM">
/// <see cref="FieldRangeKind.MeasuredBecauseItFailed"/>: the distance of the check that the tag failed, m;
/// <see cref="FieldRangeKind.Between"/>: the distance at which it did not answer, m.
/// </param>
public sealed record FieldRange(ReadingSituation Reading, double DistanceM, FieldRangeKind Kind, double? CheckM = null);

/// <summary>What a distance found in the field means.</summary>
public enum FieldRangeKind
{
    /// <summary>The range itself, of a tag that was not picked for its range.</summary>
    Measured,

    /// <summary>The tag answers at this distance: its range is at least this (censored).</summary>
    AnswersAt,

    /// <summary>The tag does not answer at this distance: its range is less (censored).</summary>
    SilentAt,

    /// <summary>The range of a tag that was measured only because it failed a check at a distance (truncated at the check).</summary>
    MeasuredBecauseItFailed,

    /// <summary>The tag answers at one distance and not at another, farther one: its range lies between them (interval-censored).</summary>
    Between,
}
