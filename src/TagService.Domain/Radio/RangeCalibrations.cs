using System.Collections.Frozen;

namespace TagService.Domain.Radio;

/// <summary>What the field has taught about the range of tag classes on materials: one posterior for each pair measured.</summary>
public sealed class RangeCalibrations
{
    private readonly FrozenDictionary<(string TagClassId, string MaterialId), CalibrationPosterior> _posteriors;

    /// <summary>Takes the posteriors over.</summary>
    /// <param name="posteriors">By tag class and material at the surface.</param>
    public RangeCalibrations(IEnumerable<KeyValuePair<(string TagClassId, string MaterialId), CalibrationPosterior>> posteriors) =>
        _posteriors = posteriors.ToFrozenDictionary();

    /// <summary>Changes with any posterior in its third decimal; empty when nothing was measured.</summary>
    public string Version => field ??= MakeVersion();

    /// <summary>Nothing measured yet.</summary>
    public static RangeCalibrations None { get; } = new([]);

    /// <summary>The posterior of one class on one material, or null where nothing was measured.</summary>
    public CalibrationPosterior? For(string tagClassId, string materialId) =>
        _posteriors.Count > 0 && _posteriors.TryGetValue((tagClassId, materialId), out var posterior) ? posterior : null;

    // Rounded: two machines may differ in the last digits of what they computed from the same measurements.
    private string MakeVersion() => string.Join('\n', _posteriors
        .OrderBy(p => p.Key.TagClassId, StringComparer.Ordinal).ThenBy(p => p.Key.MaterialId, StringComparer.Ordinal)
        .Select(p => FormattableString.Invariant(
            $"{p.Key.TagClassId} {p.Key.MaterialId} {p.Value.Observations} {p.Value.MeanShiftDb:0.000} {p.Value.SigmaDb:0.000}")));
}
