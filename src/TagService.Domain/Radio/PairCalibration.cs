using System.Security.Cryptography;
using System.Text.Json;
using TagService.Domain.Recommendations;
using TagService.Domain.Reference;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Radio;

/// <summary>What the findings of one class on one material have taught, and how many of each kind there are.</summary>
/// <param name="TagClassId">Tag class.</param>
/// <param name="MaterialId">Material at the surface.</param>
/// <param name="Posterior">Layer (a) after the findings.</param>
/// <param name="Measured">Measured ranges of tags not picked for their range.</param>
/// <param name="AnswersAt">Bounds from below.</param>
/// <param name="SilentAt">Bounds from above.</param>
/// <param name="FailedCheck">Ranges measured because the tag failed a check.</param>
/// <param name="Between">Ranges between a distance at which the tag answers and one at which it does not.</param>
/// <param name="Basis">What the posterior was computed with: see <see cref="BasisOf"/>.</param>
public sealed record PairCalibration(
    string TagClassId, string MaterialId, CalibrationPosterior Posterior, int Measured, int AnswersAt, int SilentAt, int FailedCheck, int Between, string Basis)
{
    /// <summary>Shift in dB beyond which a finding is taken for a mistake: a hundredfold range in free space.</summary>
    public const double PlausibleShiftDb = 40;

    /// <summary>Posterior of one class on one material from all its findings, each on its own surface and with its own reader.</summary>
    /// <param name="tag">The class, with the figures of today.</param>
    /// <param name="materialId">The material.</param>
    /// <param name="findings">Findings of this class on this material.</param>
    public static PairCalibration Of(TagClass tag, string materialId, IReadOnlyCollection<RangeMeasurement> findings)
    {
        ArgumentNullException.ThrowIfNull(tag);
        ArgumentNullException.ThrowIfNull(findings);
        var shifts = findings.Select(f => f.ShiftOf(tag)).OfType<ShiftObservation>().ToArray();
        return new(
            tag.Id, materialId, RangeCalibration.Posterior(shifts),
            Count(FieldRangeKind.Measured), Count(FieldRangeKind.AnswersAt), Count(FieldRangeKind.SilentAt), Count(FieldRangeKind.MeasuredBecauseItFailed),
            Count(FieldRangeKind.Between),
            BasisOf(tag));

        int Count(FieldRangeKind kind) => shifts.Count(s => s.Kind == kind);
    }

    /// <summary>
    /// Changes with whatever a shift is computed from beside the findings: the class's electrical figures and size, and the engine's
    /// version. A posterior of another basis must be computed anew.
    /// </summary>
    /// <param name="tag">The class.</param>
    public static string BasisOf(TagClass tag)
    {
        ArgumentNullException.ThrowIfNull(tag);
        var figures = JsonSerializer.SerializeToUtf8Bytes(new { RecommendationEngine.Version, tag.Technology, tag.Antenna, tag.Size }, ReferenceData.Options);
        return Convert.ToHexStringLower(SHA256.HashData(figures))[..12];
    }

    /// <summary>Is a finding within what any real tag could show?</summary>
    /// <param name="shift">The finding.</param>
    /// <returns>False for ranges and bounds more than <see cref="PlausibleShiftDb"/> from the calculated range on the side where they say something.</returns>
    public static bool IsPlausible(in ShiftObservation shift) => shift.Kind switch
    {
        FieldRangeKind.AnswersAt => shift.ValueDb <= PlausibleShiftDb,
        FieldRangeKind.SilentAt => shift.ValueDb >= -PlausibleShiftDb,
        FieldRangeKind.Between => shift.ValueDb <= PlausibleShiftDb && shift.CheckDb >= -PlausibleShiftDb,
        _ => Math.Abs(shift.ValueDb) <= PlausibleShiftDb,
    };
}
