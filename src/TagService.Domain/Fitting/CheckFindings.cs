using TagService.Domain.Attachments;
using TagService.Domain.Profiles;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.Surfaces;
using TagService.Domain.TagClasses;
using TagService.Domain.Words;

namespace TagService.Domain.Fitting;

/// <summary>Turns checks made at fitting into measured ranges, one for each attachment at most.</summary>
public static class CheckFindings
{
    /// <summary>
    /// The finding of an attachment. Never assumed are the tag class, the material, the spacing under the tag and, at UHF, the power:
    /// without one of them there is no finding. Kind of reader, region and place come from the check, else from what the asset's record
    /// says or its profile assumes, as they do for the acceptance check the fitter was told to make; thickness, backing and size of the
    /// surface likewise. The tag's axis may lie anyhow.
    /// <para>
    /// A measured range counts as measured, one recorded together with a farther distance at which the tag was silent as measured
    /// because it failed; answered and silent together as a range between the two, never as two findings of one tag.
    /// </para>
    /// </summary>
    /// <param name="attachment">The attachment.</param>
    /// <param name="asset">The record of its asset.</param>
    /// <param name="findClass">Finds a tag class by its id.</param>
    /// <returns>Distances in m, powers in dBm EIRP. Tested over all classes: usable exactly when nothing is missing, and then the shift that the calibration computes from the same figures.</returns>
    public static CheckFinding Of(Attachment attachment, AssetRecord asset, Func<string, TagClass?> findClass)
    {
        ArgumentNullException.ThrowIfNull(attachment);
        ArgumentNullException.ThrowIfNull(asset);
        ArgumentNullException.ThrowIfNull(findClass);
        var check = attachment.Check;
        if (attachment.IsVoid || Distance(check) is not { } distance)
            return new CheckFinding.NotChecked();
        if (attachment.TagClassId is not { } classId)
            return new CheckFinding.NotUsable("tagClassId", "The tag class is not recorded, and ranges are learnt by class.", "an id of /v1/tag-classes");
        if (findClass(classId) is not { } tagClass)
            return new CheckFinding.NotUsable("tagClassId", $"The catalogue has no tag class {classId} any more.", "an id of /v1/tag-classes");
        if (tagClass.Technology == TagTechnology.Uhf && check.EirpDbm is null)
            return new CheckFinding.NotUsable("checkEirpDbm", "The power of the check is not recorded, and a distance is worth nothing without it.", "the radiated power that was set, in dBm EIRP");
        if (Material(asset) is not { } material)
            return new CheckFinding.NotUsable("surface.material", MaterialMissing(asset), "surface.material in the asset's record, an id or name of /v1/materials; then send the check once more");
        if (Spacing(attachment, tagClass) is not { } spacing)
            return new CheckFinding.NotUsable("attachmentMethod", $"The fixing is not recorded, and those of {tagClass.Id} put different spacings under the tag.", "an id of /v1/attachment-methods");
        return Judge(Measurement(attachment, ProfileResolution.Resolve(asset).Asset, tagClass, material, spacing, distance), tagClass);
    }

    private static CheckFinding Judge(RangeMeasurement measurement, TagClass tagClass) => measurement.ShiftOf(tagClass) switch
    {
        null => new CheckFinding.NotUsable("checkReaderKind", $"A {RadioLookups.Reader(measurement.ReaderKind).Name} does not read {tagClass.Id}: the air interfaces differ.", "the kind of reader that was used, or the class that was fitted"),
        { } shift when !PairCalibration.IsPlausible(shift) => new CheckFinding.NotUsable(
            FieldOf(measurement.Kind),
            InvariantText.Of($"The distance is {shift.ValueDb:0} dB from what is calculated for {tagClass.Id} on {measurement.MaterialId}; beyond {PairCalibration.PlausibleShiftDb:0} dB it is taken for a mistake."),
            "check class, material, unit, power and reader"),
        _ => new CheckFinding.Usable(tagClass, measurement),
    };

    private static (FieldRangeKind Kind, double RangeM, double? CheckM)? Distance(FittingCheck check) => check switch
    {
        { MeasuredRangeM: { } measured, SilentAtM: { } silent } when silent > measured => (FieldRangeKind.MeasuredBecauseItFailed, measured, silent),
        { MeasuredRangeM: { } measured } => (FieldRangeKind.Measured, measured, null),
        { AnsweredAtM: { } answered, SilentAtM: { } silent } when silent > answered => (FieldRangeKind.Between, answered, silent),
        // The same distance twice: that is where the range ends.
        { AnsweredAtM: { } answered, SilentAtM: not null } => (FieldRangeKind.Measured, answered, null),
        { AnsweredAtM: { } answered } => (FieldRangeKind.AnswersAt, answered, null),
        { SilentAtM: { } silent } => (FieldRangeKind.SilentAt, silent, null),
        _ => null,
    };

    private static string FieldOf(FieldRangeKind kind) => kind switch
    {
        FieldRangeKind.AnswersAt or FieldRangeKind.Between => "answeredAtM",
        FieldRangeKind.SilentAt => "silentAtM",
        _ => "measuredRangeM",
    };

    // As the profile resolution takes it: a profile's own material is a guess, and what is learnt must not rest on one.
    private static Material? Material(AssetRecord asset) =>
        string.IsNullOrWhiteSpace(asset.Surface?.Material) ? null : Materials.Find(asset.Surface.Material);

    private static string MaterialMissing(AssetRecord asset) => string.IsNullOrWhiteSpace(asset.Surface?.Material)
        ? "The asset's record names no material at the surface, and ranges are learnt by material."
        : $"The material in the asset's record is not known: {asset.Surface.Material}.";

    private static double? Spacing(Attachment attachment, TagClass tagClass)
    {
        if (AttachmentMethods.Table.Find(attachment.MethodId) is { } method)
            return method.AddedStandoffMm;
        double[] possible = [.. tagClass.AttachmentMethods.Select(id => AttachmentMethods.Table[id].AddedStandoffMm).Distinct()];
        return possible.Length == 1 ? possible[0] : null;
    }

    private static RangeMeasurement Measurement(
        Attachment attachment, ResolvedAsset asset, TagClass tagClass, Material material, double spacingMm, (FieldRangeKind Kind, double RangeM, double? CheckM) distance)
    {
        var (check, usual) = (attachment.Check, asset.Reading);
        var kind = check.ReaderKind ?? usual.Reader.Kind;
        var own = kind == usual.Reader.Kind;
        return new()
        {
            TagClassId = tagClass.Id, MaterialId = material.Id, ThicknessMm = asset.ThicknessMm, BackingId = asset.Backing.Id,
            LengthMm = Math.Max(asset.LengthMm, asset.WidthMm), WidthMm = Math.Min(asset.LengthMm, asset.WidthMm), AddedStandoffMm = spacingMm,
            Kind = distance.Kind, RangeM = distance.RangeM, CheckM = distance.CheckM,
            RegionId = check.RegionId ?? usual.Region.Id, ReaderKind = kind, EirpDbm = check.EirpDbm,
            ReaderGainDbi = own ? usual.ReaderGainDbi : null, ReaderSensitivityDbm = own ? usual.ReaderSensitivityDbm : null,
            Polarization = usual.Polarization, SiteId = check.SiteId ?? usual.Site.Id, TagOrientation = TagOrientation.Any,
            MeasuredAt = attachment.Start.Exact,
        };
    }
}
