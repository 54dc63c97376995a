using TagService.Domain.Reference;

namespace TagService.Domain.Profiles;

/// <summary>What is assumed of one field when neither record, profile nor setting says anything.</summary>
/// <param name="Field">JSON pointer of the field.</param>
/// <param name="Values">The record part that carries the value.</param>
/// <param name="Confidence">How often it will be right, 0 to 1: planning value.</param>
/// <param name="Because">Why this value.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record ProductDefault(
    string Field, ProfileValues Values, double Confidence, string Because, string Source)
{
    /// <summary>All defaults, by field.</summary>
    public static ReferenceTable<ProductDefault> Table { get; } = new("defaults.data.json", d => d.Field);

    /// <summary>All defaults laid together.</summary>
    internal static ProfileValues All { get; } = new()
    {
        Surface = new()
        {
            Coating = Table["/surface/coating"].Values.Surface?.Coating,
            CurvatureRadiusMm = Table["/surface/curvatureRadiusMm"].Values.Surface?.CurvatureRadiusMm,
            Backing = Table["/surface/backing"].Values.Surface?.Backing,
        },
        Environment = Table["/environment/setting"].Values.Environment,
        Contents = Table["/contents"].Values.Contents,
        Reading = new()
        {
            RequiredProbability = Table["/reading/requiredProbability"].Values.Reading?.RequiredProbability,
            Region = Table["/reading/region"].Values.Reading?.Region,
            ReaderKind = Table["/reading/readerKind"].Values.Reading?.ReaderKind,
            Polarization = Table["/reading/polarization"].Values.Reading?.Polarization,
            TagOrientation = Table["/reading/tagOrientation"].Values.Reading?.TagOrientation,
            Looks = Table["/reading/looks"].Values.Reading?.Looks,
        },
        Service = new()
        {
            SweepsPerYear = Table["/service/sweepsPerYear"].Values.Service?.SweepsPerYear,
            Currency = Table["/service/currency"].Values.Service?.Currency,
            LabourRatePerHour = Table["/service/labourRatePerHour"].Values.Service?.LabourRatePerHour,
            VisitMinutes = Table["/service/visitMinutes"].Values.Service?.VisitMinutes,
            DiscountRate = Table["/service/discountRate"].Values.Service?.DiscountRate,
        },
        Identity = Table["/identity/epcBits"].Values.Identity,
    };
}
