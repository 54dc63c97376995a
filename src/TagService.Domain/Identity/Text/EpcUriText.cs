using System.Globalization;
using TagService.Domain.Identity.Schemes;

namespace TagService.Domain.Identity.Text;

/// <summary>EPC URIs: pure identity, tag and raw (TDS 2.3, sections 6 and 12; read in part). Control fields are tolerated and skipped.</summary>
internal static class EpcUriText
{
    private const string Id = "urn:epc:id:";
    private const string Tag = "urn:epc:tag:";
    private const string Raw = "urn:epc:raw:";

    public static IdentityReading Parse(string text)
    {
        if (Rest(text, Id) is { } id)
            return ParseId(id, text);
        if (Rest(text, Tag) is { } tag)
            return ParseTag(WithoutControls(tag), text);
        return Rest(text, Raw) is { } raw
            ? RawUriText.Parse(WithoutControls(raw), text)
            : Refuse(text, "This URN names no single thing.", "urn:epc:id:..., urn:epc:tag:... or urn:epc:raw:...");
    }

    private static IdentityReading ParseId(string rest, string text)
    {
        var colon = rest.IndexOf(':', StringComparison.Ordinal);
        foreach (var kind in Enum.GetValues<IdentityKind>())
        {
            if (colon > 0 && kind != IdentityKind.Raw && IdentityForms.UrnName(kind) == rest[..colon])
                return ParseBody(kind, rest[(colon + 1)..], text);
        }

        return Refuse(text, "This kind of EPC is not known.",
            string.Join(", ", Enum.GetValues<IdentityKind>().Where(k => k != IdentityKind.Raw).Select(k => Id + IdentityForms.UrnName(k))));
    }

    private static IdentityReading ParseTag(string rest, string text)
    {
        var colon = rest.IndexOf(':', StringComparison.Ordinal);
        var scheme = colon < 0 ? null : EpcSchemes.All.FirstOrDefault(s => s.HasTagUri && IdentityForms.TagName(s) == rest[..colon]);
        if (scheme is null)
            return Refuse(text, "This scheme has no tag URI or is not known.", string.Join(", ", EpcSchemes.All.Where(s => s.HasTagUri).Select(IdentityForms.TagName)));
        var body = rest[(colon + 1)..];
        var filter = 0;
        if (scheme.HighestFilter > 0)
        {
            var dot = body.IndexOf('.', StringComparison.Ordinal);
            if (dot < 0 || !int.TryParse(body.AsSpan(0, dot), NumberStyles.None, CultureInfo.InvariantCulture, out filter))
                return Refuse(text, "The tag URI does not begin with a filter value.", $"0 to {scheme.HighestFilter} and a dot");
            body = body[(dot + 1)..];
        }

        var reading = ParseBody(scheme.Kind, body, text);
        if (reading is not IdentityRead read)
            return reading;
        var content = read.Content with { Filter = filter };
        return scheme.Encode(content) is EpcRefused refused ? new IdentityRefused(refused.Reason) : new IdentityRead(content, scheme);
    }

    private static IdentityReading ParseBody(IdentityKind kind, string body, string text)
    {
        var format = KeyFormats.Find(kind);
        var names = Fields(kind, format);
        // The last field may hold dots of its own.
        var fields = body.Split('.', names.Length);
        if (fields.Length != names.Length)
            return Refuse(text, $"The URI has {fields.Length} fields.", $"{names.Length} fields with dots between: {string.Join(", ", names)}");
        for (var i = 0; i < fields.Length; i++)
        {
            if (!UrnEscapes.TryUnescape(fields[i], out fields[i]))
                return IdentityReading.Refuse(names[i], fields[i], "A character must be written as a triplet, or a triplet is none.", "for example %2F for /");
        }

        if (format is null)
            return OtherKeys.Read(kind, fields, names);
        var tail = format.TailDigits > 0 ? fields[2] + fields[3] : "";
        return Gs1Keys.OfParts(format, fields[0], fields[1], tail, format.MaxSerial > 0 ? fields[^1] : "");
    }

    private static string[] Fields(IdentityKind kind, KeyFormat? format) => kind switch
    {
        IdentityKind.Gid => ["manager", "objectClass", "serial"],
        IdentityKind.Adi => ["code", "partNumber", "serial"],
        IdentityKind.Usdod => ["code", "serial"],
        IdentityKind.Itip => ["companyPrefix", "itemReference", "piece", "total", "serial"],
        _ when format!.MaxSerial > 0 => ["companyPrefix", "reference", "serial"],
        _ => ["companyPrefix", "reference"],
    };

    private static string? Rest(string text, string start) =>
        text.StartsWith(start, StringComparison.OrdinalIgnoreCase) ? text[start.Length..] : null;

    private static string WithoutControls(string rest)
    {
        while (rest.StartsWith('[') && rest.IndexOf(']', StringComparison.Ordinal) is var end and > 0)
            rest = rest[(end + 1)..];
        return rest.TrimStart(':');
    }

    private static IdentityRefused Refuse(string text, string detail, string accepted) =>
        IdentityReading.Refuse("identity", text, detail, accepted);
}
