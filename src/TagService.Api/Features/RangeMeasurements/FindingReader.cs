using System.Globalization;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.Surfaces;
using TagService.Domain.TagClasses;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.RangeMeasurements;

/// <summary>Turns requests into findings: names looked up, gaps filled, what cannot be said refused with its place.</summary>
internal sealed class FindingReader(CatalogueSnapshot snapshot, DateTimeOffset now)
{
    private const int MaxErrors = 50;
    private const double UsualLengthMm = 500;
    private const double UsualWidthMm = 300;

    private readonly List<ProblemError> _unknown = [];
    private readonly List<ProblemError> _contradictions = [];
    private string _at = "";

    /// <summary>The findings, or the problem.</summary>
    public (IReadOnlyList<(TagClass TagClass, RangeMeasurement Finding)> Findings, ApiProblem? Problem) Read(IReadOnlyList<RangeMeasurementRequest> requests)
    {
        var findings = new List<(TagClass, RangeMeasurement)>(requests.Count);
        for (var i = 0; i < requests.Count && _unknown.Count + _contradictions.Count < MaxErrors; i++)
        {
            _at = string.Create(CultureInfo.InvariantCulture, $"#/measurements/{i}");
            if (Finding(requests[i]) is { } finding)
                findings.Add(finding);
        }

        if (_unknown.Count > 0)
            return ([], new(ProblemTypes.InvalidFields, "A name in the findings is in none of the tables.", _unknown));
        return _contradictions.Count > 0 ? ([], ApiProblem.Contradictory(_contradictions[0].Detail, _contradictions)) : (findings, null);
    }

    private (TagClass, RangeMeasurement)? Finding(RangeMeasurementRequest r)
    {
        var tagClass = snapshot.Find(r.TagClassId) ?? Unknown<TagClass>("tagClassId", r.TagClassId, "tag class", snapshot.Context.Classes.Select(c => c.Id));
        var material = MaterialOf("material", r.Material);
        var backing = r.Backing is null ? Materials.Air : MaterialOf("backing", r.Backing);
        var method = r.AttachmentMethod is null
            ? null
            : AttachmentMethods.Table.Find(r.AttachmentMethod) ?? Unknown<AttachmentMethod>("attachmentMethod", r.AttachmentMethod, "way of fixing", AttachmentMethods.All.Select(m => m.Id));
        var region = RadioTables.RegionOf(r.Reading.Region) ?? Unknown<RadioRegion>("reading/region", r.Reading.Region, "radio region", RadioTables.Regions.All.Select(x => x.Id));
        var site = RadioTables.Sites.Find(r.Reading.Site ?? "warehouse") ?? Unknown<SiteModel>("reading/site", r.Reading.Site!, "kind of place", RadioTables.Sites.All.Select(s => s.Id));
        if (tagClass is null || material is null || backing is null || region is null || site is null || (method is null && r.AttachmentMethod is not null))
            return null;

        double length = r.LengthMm ?? Math.Max(UsualLengthMm, r.WidthMm ?? 0), width = r.WidthMm ?? Math.Min(UsualWidthMm, length);
        var finding = new RangeMeasurement
        {
            TagClassId = tagClass.Id, MaterialId = material.Id, ThicknessMm = r.ThicknessMm ?? material.TypicalThicknessMm, BackingId = backing.Id,
            LengthMm = Math.Max(length, width), WidthMm = Math.Min(length, width), AddedStandoffMm = method?.AddedStandoffMm ?? 0,
            Kind = RangeMeasurementMapping.KindOf(r.Kind), RangeM = r.RangeM, CheckM = r.CheckM, RegionId = region.Id, ReaderKind = r.Reading.ReaderKind,
            EirpDbm = r.Reading.EirpDbm, ReaderGainDbi = r.Reading.ReaderGainDbi, ReaderSensitivityDbm = r.Reading.ReaderSensitivityDbm,
            Polarization = r.Reading.Polarization ?? ReaderPolarization.Circular, SiteId = site.Id, TagOrientation = r.Reading.TagOrientation ?? TagOrientation.Any,
            MeasuredAt = r.MeasuredAt?.ToUniversalTime(), Note = r.Note,
        };
        return Holds(r, finding, tagClass) ? (tagClass, finding) : null;
    }

    private bool Holds(RangeMeasurementRequest r, RangeMeasurement finding, TagClass tagClass)
    {
        if (r.Kind is RangeFinding.FailedCheck or RangeFinding.Between != r.CheckM is not null)
            return Contradiction("checkM", r.CheckM, "checkM belongs to the kinds failed-check and between, and only to them.", "the distance in m at which the tag did not answer, with kind failed-check or between");
        if (r.CheckM <= r.RangeM)
            return Contradiction("checkM", r.CheckM, "A tag whose range is not below checkM has not been silent there.", "checkM > rangeM");
        if (r.MeasuredAt > now.AddDays(1))
            return Contradiction("measuredAt", null, "measuredAt is in the future.", "a time up to now");
        if (finding.ShiftOf(tagClass) is not { } shift)
            return Contradiction("reading/readerKind", null, $"A reader of this kind does not read {tagClass.Id}: the air interfaces differ.", "a reader of the class's technology");
        return PairCalibration.IsPlausible(shift) || Contradiction(
            "rangeM", r.RangeM,
            FormattableString.Invariant($"The distance is {shift.ValueDb:+0;-0} dB from what is calculated for {tagClass.Id} on this surface; beyond {PairCalibration.PlausibleShiftDb:0} dB it is taken for a mistake."),
            "check class, material, unit, power and reader");
    }

    private Material? MaterialOf(string member, string words)
    {
        if (Materials.Find(words) is { } found)
            return found;
        _unknown.Add(new($"{_at}/{member}", JsonText.Clip(words), "Not a known material.", $"an id or name of /v1/materials, for example {string.Join(", ", Materials.Nearest(words, 3))}"));
        return null;
    }

    private T? Unknown<T>(string member, string value, string what, IEnumerable<string> known)
        where T : class
    {
        var names = known.ToArray();
        var near = NearestName.Of(value, names);
        _unknown.Add(new(
            $"{_at}/{member}", JsonText.Clip(value), near is null ? $"Not a known {what}." : $"Not a known {what}; {near} is the nearest.",
            names.Length <= 40 ? string.Join(", ", names) : $"one of the {names.Length} ids of that table"));
        return null;
    }

    private bool Contradiction(string member, double? value, string detail, string accepted)
    {
        _contradictions.Add(new($"{_at}/{member}", value?.ToString("R", CultureInfo.InvariantCulture), detail, accepted));
        return false;
    }
}
