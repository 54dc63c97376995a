using System.Collections.Frozen;
using System.Security.Cryptography;
using System.Text;

namespace TagService.Domain.Radio;

/// <summary>What the field has taught about the range of tag classes on materials: one posterior for each pair measured.</summary>
public sealed class RangeCalibrations
{
    private readonly FrozenDictionary<(string TagClassId, string MaterialId), CalibrationPosterior> _posteriors;
    private readonly Lazy<FrozenDictionary<string, string>> _versions;

    /// <summary>Takes the posteriors over.</summary>
    /// <param name="posteriors">By tag class and material at the surface.</param>
    public RangeCalibrations(IEnumerable<KeyValuePair<(string TagClassId, string MaterialId), CalibrationPosterior>> posteriors)
    {
        _posteriors = posteriors.ToFrozenDictionary();
        _versions = new(() => _posteriors.GroupBy(p => p.Key.MaterialId).ToFrozenDictionary(m => m.Key, m => VersionOf(m), StringComparer.Ordinal));
    }

    /// <summary>
    /// Version of what was measured on one material: 8 hexadecimal digits that change with any posterior there in its third decimal;
    /// empty when nothing was measured on it.
    /// </summary>
    /// <param name="materialId">The material.</param>
    public string VersionOn(string materialId) => _versions.Value.GetValueOrDefault(materialId, "");

    /// <summary>Nothing measured yet.</summary>
    public static RangeCalibrations None { get; } = new([]);

    /// <summary>The posterior of one class on one material, or null where nothing was measured.</summary>
    public CalibrationPosterior? For(string tagClassId, string materialId) =>
        _posteriors.Count > 0 && _posteriors.TryGetValue((tagClassId, materialId), out var posterior) ? posterior : null;

    // Rounded: two machines may differ in the last digits of what they computed from the same measurements.
    private static string VersionOf(IEnumerable<KeyValuePair<(string TagClassId, string MaterialId), CalibrationPosterior>> posteriors)
    {
        var text = string.Join('\n', posteriors
            .OrderBy(p => p.Key.TagClassId, StringComparer.Ordinal)
            .Select(p => FormattableString.Invariant($"{p.Key.TagClassId} {p.Value.Observations} {p.Value.MeanShiftDb:0.000} {p.Value.SigmaDb:0.000}")));
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..8];
    }
}
