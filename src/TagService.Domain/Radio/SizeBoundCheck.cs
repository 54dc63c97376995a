using TagService.Domain.TagClasses;

namespace TagService.Domain.Radio;

/// <summary>A class that claims more than an antenna of its size can do.</summary>
/// <param name="TagClassId">The class.</param>
/// <param name="ClaimedDbi">Realised gain claimed, dBi.</param>
/// <param name="BoundDbi">Highest gain by the small-antenna bound, dBi.</param>
/// <param name="Where">Under which condition: peak or band edge, off metal or on its reference plate.</param>
public sealed record SizeBoundFinding(string TagClassId, double ClaimedDbi, double BoundDbi, string Where)
{
    /// <summary>In words, with both values.</summary>
    public string Sentence => FormattableString.Invariant(
        $"{TagClassId} claims {ClaimedDbi:0.0} dBi {Where}; an antenna of its size reaches at most {BoundDbi:0.0} dBi: its expected range is probably too long.");
}

/// <summary>Holds tag classes against <see cref="AntennaSizeBound"/>.</summary>
public static class SizeBoundCheck
{
    /// <summary>Frequency at which the bound is taken, MHz: the upper half of 860-960, where it is the more generous.</summary>
    private const double CentreMhz = 915;

    /// <summary>
    /// The classes that break the bound, with both values. A class claims its reference gain at the centre and 3 dB less over its
    /// whole bandwidth; the sphere encloses the tag, for a ground-plane class away from metal, and the reference plate for the gain on it
    /// (on larger metal objects the object radiates too, and no such bound exists). HF classes are not antennas in this sense.
    /// </summary>
    /// <param name="classes">Any classes, the built-in catalogue's or a user's own.</param>
    /// <returns>One finding per broken condition; empty when all keep it.</returns>
    public static IReadOnlyList<SizeBoundFinding> Breaking(IEnumerable<TagClass> classes)
    {
        ArgumentNullException.ThrowIfNull(classes);
        return [.. classes.Where(c => c.Technology == TagTechnology.Uhf).SelectMany(Of)];
    }

    private static IEnumerable<SizeBoundFinding> Of(TagClass c)
    {
        var a = c.Antenna;
        var tagMm = Math.Sqrt((c.Size.LengthMm * c.Size.LengthMm) + (c.Size.WidthMm * c.Size.WidthMm) + (c.Size.HeightMm * c.Size.HeightMm));
        if (a.Kind == AntennaKind.Dipole)
            return Claims(c, a.ReferenceGainDbi, tagMm, "on its reference surface");
        var plateMm = Math.Max(tagMm, a.ReferencePlateMm * Math.Sqrt(2));
        return Claims(c, a.ReferenceGainDbi - a.OffMetalPenaltyDb, tagMm, "away from metal")
            .Concat(Claims(c, a.ReferenceGainDbi, plateMm, "on its reference plate"));
    }

    private static IEnumerable<SizeBoundFinding> Claims(TagClass c, double gainDbi, double largestMm, string where)
    {
        var bandwidth = c.Antenna.BandwidthMhz > 0 ? c.Antenna.BandwidthMhz : 1;
        var peak = AntennaSizeBound.GainDbi(largestMm, CentreMhz - 0.05, CentreMhz + 0.05);
        var edge = AntennaSizeBound.GainDbi(largestMm, CentreMhz - (bandwidth / 2), CentreMhz + (bandwidth / 2));
        if (gainDbi > peak)
            yield return new(c.Id, gainDbi, peak, $"{where}, at its centre frequency");
        if (gainDbi - 3 > edge)
            yield return new(c.Id, gainDbi - 3, edge, FormattableString.Invariant($"{where}, over its bandwidth of {bandwidth:0.#} MHz"));
    }
}
