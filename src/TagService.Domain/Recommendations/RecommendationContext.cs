using System.Security.Cryptography;
using System.Text;
using TagService.Domain.Radio;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Recommendations;

/// <summary>What an answer rests on beside the record: the catalogue with the user's own classes, prices and certificates,
/// the measured ranges, and the day.</summary>
public sealed class RecommendationContext
{
    /// <summary>Lays the catalogue out for judging; make it once and answer many records with it.</summary>
    /// <param name="classes">Tag classes.</param>
    /// <param name="catalogueVersion">Version of those classes, shown in answers.</param>
    /// <param name="calibrations">Measured ranges.</param>
    /// <param name="asOf">Day of the judgement, for certificates that expire; null: expiry cannot be checked.</param>
    public RecommendationContext(
        IReadOnlyList<TagClass> classes, string catalogueVersion, RangeCalibrations calibrations, DateOnly? asOf)
        : this(new CompiledCatalogue(classes), catalogueVersion, calibrations, asOf)
    {
    }

    private RecommendationContext(
        CompiledCatalogue catalogue, string catalogueVersion, RangeCalibrations calibrations, DateOnly? asOf)
    {
        Catalogue = catalogue;
        CatalogueVersion = catalogueVersion;
        Calibrations = calibrations;
        AsOf = asOf;
    }

    /// <summary>The built-in catalogue, nothing measured, no day.</summary>
    public static RecommendationContext BuiltIn { get; } =
        new(TagClassCatalogue.BuiltIn.All, TagClassCatalogue.Version, RangeCalibrations.None, null);

    /// <summary>Version of the tag classes.</summary>
    public string CatalogueVersion { get; }

    /// <summary>Measured ranges.</summary>
    public RangeCalibrations Calibrations { get; }

    /// <summary>Day of the judgement.</summary>
    public DateOnly? AsOf { get; }

    /// <summary>The tag classes, in the order they are listed.</summary>
    public IReadOnlyList<TagClass> Classes => Catalogue.Classes;

    /// <summary>
    /// Version of what an answer rests on beside the record and the measured ranges (<see cref="RangeCalibrations.VersionOn"/>): the
    /// catalogue's version, followed by 8 hexadecimal digits for certificates that have ended, where there are any. A stored answer of
    /// another version is stale.
    /// </summary>
    public string AnswerVersion => field ??= MakeAnswerVersion();

    internal CompiledCatalogue Catalogue { get; }

    /// <summary>Where a class of this catalogue claims more than an antenna of its size can do; empty for most.</summary>
    /// <param name="tagClass">The class.</param>
    public IReadOnlyList<SizeBoundFinding> SizeBoundFindings(TagClass tagClass)
    {
        ArgumentNullException.ThrowIfNull(tagClass);
        return Catalogue.SizeBoundFindings.TryGetValue(tagClass.Id, out var findings) ? findings : [];
    }

    /// <summary>The same on another day.</summary>
    public RecommendationContext On(DateOnly day) => day == AsOf ? this : new(Catalogue, CatalogueVersion, Calibrations, day);

    private string MakeAnswerVersion()
    {
        string[] ended = [.. Classes.Where(c => c.Certificate?.ValidUntil < AsOf).Select(c => c.Id).Order(StringComparer.Ordinal)];
        return ended.Length == 0
            ? CatalogueVersion
            : $"{CatalogueVersion}.{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', ended))))[..8]}";
    }
}
