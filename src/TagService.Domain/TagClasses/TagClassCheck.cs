using System.Globalization;
using TagService.Domain.Suitability;

namespace TagService.Domain.TagClasses;

/// <summary>Something in an own class or overlay that no recommendation could be made with.</summary>
/// <param name="Pointer">JSON pointer within the class, for example /limits/ipCodes/0.</param>
/// <param name="Value">What stands there.</param>
/// <param name="Detail">What is wrong, in one sentence.</param>
/// <param name="Accepted">What would be accepted.</param>
/// <param name="Contradicts">Two members cannot both hold; else the value is in none of the tables.</param>
public sealed record TagClassFault(string Pointer, string? Value, string Detail, string? Accepted, bool Contradicts);

/// <summary>Checks own classes and overlays: names that the tables must have, figures that must agree.</summary>
public static class TagClassCheck
{
    /// <summary>Everything wrong with an overlay; empty when it can be used.</summary>
    /// <param name="overlay">Numbers are within their ranges already.</param>
    public static IReadOnlyList<TagClassFault> Faults(TagClassOverlay overlay)
    {
        ArgumentNullException.ThrowIfNull(overlay);
        var faults = new List<TagClassFault>();
        if (overlay.Own is { } own)
        {
            Names(own, faults);
            Limits(own, faults);
            Antenna(own, faults);
        }

        if ((overlay.Own?.Price ?? overlay.Price) is { } price && !(0 < price.Low && price.Low <= price.Typical && price.Typical <= price.High))
            faults.Add(Disagree("/price/typical", price.Typical, "Prices must be above 0 and rise from low over typical to high.", "low <= typical <= high"));
        if ((overlay.Own?.Certificate ?? overlay.Certificate) is { } certificate)
            Certificate(certificate, faults);
        return faults;
    }

    private static void Names(TagClass own, List<TagClassFault> faults)
    {
        Known("/attachmentMethods", own.AttachmentMethods, "way of fixing", id => AttachmentMethods.Table.Find(id)?.Id, AttachmentMethods.All.Select(m => m.Id), faults);
        if (own.AttachmentMethods.Count == 0)
            faults.Add(new("/attachmentMethods", "[]", "A class must allow at least one way of fixing.", "ids of /v1/attachment-methods", false));
        Known("/cautions", own.Cautions, "caution", id => Cautions.Table.Find(id)?.Id, Cautions.All.Select(c => c.Id), faults);
        Known(
            "/limits", [own.Limits.FaceMaterial], "face material", id => Chemicals.Compatibility.Find(id)?.Material,
            Chemicals.Compatibility.All.Select(m => m.Material), faults, "/faceMaterial");
        for (var i = 0; i < own.Limits.IpCodes.Count; i++)
        {
            if (!IpCode.TryParse(own.Limits.IpCodes[i], out _))
                faults.Add(new(At("/limits/ipCodes", i), own.Limits.IpCodes[i], "Not an IP code.", "IEC 60529 codes such as IP54, IP66, IP68, IPX7, IP69K", false));
        }
    }

    private static void Known(
        string pointer, IReadOnlyList<string> ids, string what, Func<string, string?> find, IEnumerable<string> all, List<TagClassFault> faults,
        string? member = null)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        for (var i = 0; i < ids.Count; i++)
        {
            var at = member is null ? At(pointer, i) : pointer + member;
            // The tables do not regard case; what is stored is compared ordinally, so it must be the id itself.
            if (find(ids[i]) != ids[i])
                faults.Add(new(at, ids[i], $"Not a known {what}.", string.Join(", ", all), false));
            else if (!seen.Add(ids[i]))
                faults.Add(new(at, ids[i], $"The {what} is listed twice.", "each id once", false));
        }
    }

    private static void Limits(TagClass own, List<TagClassFault> faults)
    {
        var l = own.Limits;
        if (l.TemperatureMinC >= l.TemperatureMaxC)
            faults.Add(Disagree("/limits/temperatureMinC", l.TemperatureMinC, "The lowest temperature is not below the highest.", "temperatureMinC < temperatureMaxC"));
        if (l.TemperatureMaxC > l.PeakTemperatureC)
            faults.Add(Disagree("/limits/peakTemperatureC", l.PeakTemperatureC, "The peak temperature is below the highest continuous one.", "temperatureMaxC <= peakTemperatureC"));
        if (own.Size.WidthMm > own.Size.LengthMm)
            faults.Add(Disagree("/size/widthMm", own.Size.WidthMm, "The width exceeds the length; length is the longer side.", "widthMm <= lengthMm"));
    }

    private static void Antenna(TagClass own, List<TagClassFault> faults)
    {
        var a = own.Antenna;
        var uhf = own.Technology == TagTechnology.Uhf;
        if (uhf != (a.Kind is AntennaKind.Dipole or AntennaKind.GroundPlane))
        {
            faults.Add(new(
                "/antenna/kind", a.Kind.ToString(), "The antenna does not belong to the technology.", "dipole or ground-plane for uhf, hf-loop or hf-ferrite-loop for 13.56 MHz", true));
            return;
        }

        if (a.StandoffMm > own.Size.HeightMm)
            faults.Add(Disagree("/antenna/standoffMm", a.StandoffMm, "The built-in distance exceeds the tag's height.", "standoffMm <= size.heightMm"));
        if (uhf)
        {
            Needs(a.ThresholdDbm < 0, "/antenna/thresholdDbm", a.ThresholdDbm, "A UHF class needs its chip's threshold in dBm, below 0.", faults);
            Needs(a.BandwidthMhz >= 0.01, "/antenna/bandwidthMhz", a.BandwidthMhz, "A UHF class needs its bandwidth in MHz, at least 0.01.", faults);
            Needs(a.ModulationFactor >= 0.001, "/antenna/modulationFactor", a.ModulationFactor, "A UHF class needs a modulation factor of at least 0.001.", faults);
            Needs(
                a.Kind == AntennaKind.GroundPlane ? a.ReferencePlateMm >= 1 : a.ReferencePlateMm == 0, "/antenna/referencePlateMm", a.ReferencePlateMm,
                "A ground-plane class, and only such a one, needs the side of its reference plate in mm, at least 1.", faults);
        }
        else
        {
            Needs(a.ThresholdAPerM >= 0.001, "/antenna/thresholdAPerM", a.ThresholdAPerM, "A 13.56 MHz class needs its field threshold in A/m, at least 0.001.", faults);
            Needs(a.CoilAreaMm2 >= 0.01, "/antenna/coilAreaMm2", a.CoilAreaMm2, "A 13.56 MHz class needs its coil area in mm^2, at least 0.01.", faults);
        }
    }

    private static void Certificate(HazardousAreaCertificate certificate, List<TagClassFault> faults)
    {
        // IEC 60079-0 (from memory): levels Ga to Gc go with the gas groups II, Da to Dc with the dust groups III.
        var dust = certificate.EquipmentProtectionLevel.StartsWith('D');
        if (dust != certificate.Group.StartsWith("III", StringComparison.Ordinal))
        {
            faults.Add(new(
                "/certificate/group", certificate.Group,
                $"Group {certificate.Group} does not go with equipment protection level {certificate.EquipmentProtectionLevel}.",
                "IIA, IIB, IIC with Ga, Gb, Gc; IIIA, IIIB, IIIC with Da, Db, Dc", true));
        }
    }

    private static void Needs(bool holds, string pointer, double value, string detail, List<TagClassFault> faults)
    {
        if (!holds)
            faults.Add(Disagree(pointer, value, detail, null));
    }

    private static TagClassFault Disagree(string pointer, double value, string detail, string? accepted) =>
        new(pointer, value.ToString("R", CultureInfo.InvariantCulture), detail, accepted, true);

    private static string At(string pointer, int index) => string.Create(CultureInfo.InvariantCulture, $"{pointer}/{index}");
}
