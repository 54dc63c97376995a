using TagService.Domain.Radio;
using TagService.Storage.Tables;

namespace TagService.Api.Features.RangeMeasurements;

/// <summary>From the wire to the domain and back.</summary>
internal static class RangeMeasurementMapping
{
    public static RangeMeasurementPageResponse Example { get; } = new(
        [
            new(
                17, "hard-metal-mount-large", "steel", 3, "air", 500, 300, 0, RangeFinding.Measured, 4.2, null,
                new("eu", Domain.Recommendations.ReaderKind.Handheld, 30, null, null, Domain.Recommendations.ReaderPolarization.Circular, "plant", Domain.Recommendations.TagOrientation.Any),
                new(2026, 5, 4, 10, 0, 0, TimeSpan.Zero), new(2026, 5, 4, 16, 20, 0, TimeSpan.Zero), "pump 7 (invented)", null),
        ],
        null);

    public static FieldRangeKind KindOf(RangeFinding kind) => kind switch
    {
        RangeFinding.AnswersAtLeast => FieldRangeKind.AnswersAt,
        RangeFinding.SilentAt => FieldRangeKind.SilentAt,
        RangeFinding.FailedCheck => FieldRangeKind.MeasuredBecauseItFailed,
        RangeFinding.Between => FieldRangeKind.Between,
        _ => FieldRangeKind.Measured,
    };

    public static RangeCalibrationResponse ToResponse(this PairCalibration pair) => new(
        pair.TagClassId, pair.MaterialId, pair.Posterior.Observations, Math.Round(pair.Posterior.MeanShiftDb, 3), Math.Round(pair.Posterior.SigmaDb, 3),
        pair.Measured, pair.AnswersAt, pair.SilentAt, pair.FailedCheck, pair.Between);

    public static RangeMeasurementResponse ToResponse(this RangeMeasurementRow row)
    {
        var m = row.Measurement;
        return new(
            row.Id, m.TagClassId, m.MaterialId, m.ThicknessMm, m.BackingId, m.LengthMm, m.WidthMm, m.AddedStandoffMm, FindingOf(m.Kind), m.RangeM, m.CheckM,
            new(m.RegionId, m.ReaderKind, m.EirpDbm, m.ReaderGainDbi, m.ReaderSensitivityDbm, m.Polarization, m.SiteId, m.TagOrientation),
            m.MeasuredAt, row.RecordedAt, m.Note, row.AttachmentId);
    }

    public static RangeFinding FindingOf(FieldRangeKind kind) => kind switch
    {
        FieldRangeKind.AnswersAt => RangeFinding.AnswersAtLeast,
        FieldRangeKind.SilentAt => RangeFinding.SilentAt,
        FieldRangeKind.MeasuredBecauseItFailed => RangeFinding.FailedCheck,
        FieldRangeKind.Between => RangeFinding.Between,
        _ => RangeFinding.Measured,
    };
}
