using TagService.Domain.Recommendations;

namespace TagService.Api.Features.RangeMeasurements;

/// <summary>What became of a request of measured ranges.</summary>
/// <param name="Measurements">Findings in the request.</param>
/// <param name="Repeated">True when the same request was stored before under the same Idempotency-Key; nothing was stored again.</param>
/// <param name="Calibrations">What is known now of each class on each material of the request.</param>
public sealed record RangeMeasurementsResponse(int Measurements, bool Repeated, IReadOnlyList<RangeCalibrationResponse> Calibrations);

/// <summary>What the field has taught about one tag class on one material.</summary>
/// <param name="TagClassId">Id in /v1/tag-classes.</param>
/// <param name="MaterialId">Id in /v1/materials.</param>
/// <param name="Observations">Findings it rests on.</param>
/// <param name="MeanShiftDb">Mean gain over the calculated one in dB; positive reads farther.</param>
/// <param name="SigmaDb">Standard deviation left of that mean in dB; the planning prior has 2.5 dB.</param>
/// <param name="Measured">Findings of kind measured.</param>
/// <param name="AnswersAtLeast">Findings of kind answers-at-least.</param>
/// <param name="SilentAt">Findings of kind silent-at.</param>
/// <param name="FailedCheck">Findings of kind failed-check.</param>
/// <param name="Between">Findings of kind between.</param>
public sealed record RangeCalibrationResponse(
    string TagClassId, string MaterialId, int Observations, double MeanShiftDb, double SigmaDb, int Measured, int AnswersAtLeast, int SilentAt, int FailedCheck,
    int Between);

/// <summary>All that the field has taught, by tag class and material.</summary>
/// <param name="Items">One entry for each class and material with findings.</param>
public sealed record RangeCalibrationListResponse(IReadOnlyList<RangeCalibrationResponse> Items);

/// <summary>One finding as it is kept, gaps filled.</summary>
/// <param name="Id">Rising number; gaps are possible.</param>
/// <param name="TagClassId">Id in /v1/tag-classes.</param>
/// <param name="MaterialId">Id in /v1/materials.</param>
/// <param name="ThicknessMm">Thickness of the material in mm.</param>
/// <param name="BackingId">Id in /v1/materials of what is behind it.</param>
/// <param name="LengthMm">Longer side of the surface in mm.</param>
/// <param name="WidthMm">Shorter side of the surface in mm.</param>
/// <param name="AddedStandoffMm">Spacing in mm that the fixing added.</param>
/// <param name="Kind">What the distance means.</param>
/// <param name="RangeM">The distance in m.</param>
/// <param name="CheckM">Distance in m of the failed check, or at which it did not answer.</param>
/// <param name="Reading">Reader, power and place.</param>
/// <param name="MeasuredAt">When it was measured.</param>
/// <param name="RecordedAt">When it was recorded.</param>
/// <param name="Note">Your own remark.</param>
/// <param name="AttachmentId">The attachment whose check it is, an id in /v1/attachments; absent where it was reported by itself.</param>
public sealed record RangeMeasurementResponse(
    long Id, string TagClassId, string MaterialId, double ThicknessMm, string BackingId, double LengthMm, double WidthMm, double AddedStandoffMm,
    RangeFinding Kind, double RangeM, double? CheckM, MeasuredReadingResponse Reading, DateTimeOffset? MeasuredAt, DateTimeOffset RecordedAt, string? Note,
    Guid? AttachmentId);

/// <summary>Reader, power and place of a finding.</summary>
/// <param name="Region">Id in /v1/radio-regions.</param>
/// <param name="ReaderKind">Kind of reader.</param>
/// <param name="EirpDbm">Stated power in dBm EIRP.</param>
/// <param name="ReaderGainDbi">Stated antenna gain in dBi.</param>
/// <param name="ReaderSensitivityDbm">Stated sensitivity in dBm.</param>
/// <param name="Polarization">Polarisation of the reader's antenna.</param>
/// <param name="Site">Id in /v1/site-models.</param>
/// <param name="TagOrientation">How the tag's axis lay.</param>
public sealed record MeasuredReadingResponse(
    string Region, ReaderKind ReaderKind, double? EirpDbm, double? ReaderGainDbi, double? ReaderSensitivityDbm, ReaderPolarization Polarization, string Site,
    TagOrientation TagOrientation);

/// <summary>One page of findings, oldest first. The Link header (RFC 8288) has the address of the next page.</summary>
/// <param name="Items">The findings.</param>
/// <param name="NextAfter">The value of after for the next page; absent on the last one.</param>
public sealed record RangeMeasurementPageResponse(IReadOnlyList<RangeMeasurementResponse> Items, long? NextAfter);
