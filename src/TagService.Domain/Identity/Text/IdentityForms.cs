using TagService.Domain.Identity.Schemes;

namespace TagService.Domain.Identity.Text;

/// <summary>The text forms of an identity, made on demand (TDS 2.3, sections 6.3, 7 and 12; GS1 Digital Link URI syntax; secondary).</summary>
public static class IdentityForms
{
    /// <summary>Host of canonical Digital Links.</summary>
    public const string CanonicalHost = "id.gs1.org";

    private const string PureIdentityStart = "urn:epc:id:";

    /// <summary>Element string with brackets, for example <c>(01)09506000134352(21)6789</c>; null for kinds without AI.</summary>
    /// <param name="key">The identity.</param>
    public static string? ElementString(IdentityKey key) => WithAis(key, static (ai, value) => $"({ai}){value}");

    /// <summary>Element string with the date of the DSGTIN schemes behind it.</summary>
    /// <param name="content">Identity and date.</param>
    public static string? ElementString(EpcContent content) =>
        content.Date is { } date ? $"{ElementString(content.Key)}({date.Ai}){date.Digits}" : ElementString(content.Key);

    /// <summary>Digital Link URI, for example <c>https://id.gs1.org/8004/95211415678</c>; null for kinds without AI.</summary>
    /// <param name="key">The identity.</param>
    /// <param name="host">Host; the canonical one unless the owner has another.</param>
    public static string? DigitalLink(IdentityKey key, string? host = null) =>
        WithAis(key, static (ai, value) => $"/{ai}/{Uri.EscapeDataString(value)}") is { } path ? $"https://{host ?? CanonicalHost}{path}" : null;

    /// <summary>
    /// Pure identity URI, for example <c>urn:epc:id:giai:9521141.5678</c>; null for raw bits, and for a GS1 key whose company prefix
    /// length is not known or does not fit it.
    /// </summary>
    /// <param name="key">The identity.</param>
    /// <param name="companyPrefixLength">Digits of the company prefix; of no meaning for kinds without one.</param>
    public static string? PureIdentityUri(IdentityKey key, int companyPrefixLength) => Body(key, companyPrefixLength) is { } body
        ? $"{PureIdentityStart}{UrnName(key.Kind)}:{body}"
        : null;

    /// <summary>Pure identity URI with a prefix length that the bits hold, or else that of the owner's licensed prefixes.</summary>
    /// <param name="content">What was decoded.</param>
    /// <param name="prefixes">The owner's company prefixes.</param>
    public static string? PureIdentityUri(EpcContent content, CompanyPrefixes prefixes)
    {
        ArgumentNullException.ThrowIfNull(prefixes);
        return PureIdentityUri(content.Key, content.CompanyPrefixLength > 0 ? content.CompanyPrefixLength : prefixes.LengthFor(content.Key) ?? 0);
    }

    /// <summary>Tag URI, for example <c>urn:epc:tag:giai-96:3.9521141.5678</c>; null for schemes that have none (<c>+</c> and <c>++</c>).</summary>
    /// <param name="scheme">The scheme.</param>
    /// <param name="content">Identity, filter and company prefix length.</param>
    public static string? TagUri(EpcScheme scheme, EpcContent content)
    {
        ArgumentNullException.ThrowIfNull(scheme);
        if (!scheme.HasTagUri || Body(content.Key, content.CompanyPrefixLength) is not { } body)
            return null;
        var filter = scheme.HighestFilter > 0 ? $"{content.Filter}." : "";
        return $"urn:epc:tag:{TagName(scheme)}:{filter}{body}";
    }

    /// <summary>Raw URI: <c>urn:epc:raw:N.xHEX</c>, or <c>urn:epc:raw:N.xAFI.xHEX</c> for ISO content; null for what is decoded.</summary>
    /// <param name="key">The identity.</param>
    public static string? RawUri(IdentityKey key)
    {
        if (key.Kind != IdentityKind.Raw)
            return null;
        var (hex, bits, afi) = key.RawFields;
        return FormattableString.Invariant($"urn:epc:raw:{bits}.{(afi is { } a ? $"x{a:X2}." : "")}x{hex}");
    }

    internal static string Canonical(IdentityKey key) =>
        WithAis(key, static (ai, value) => $":{ai}:{Uri.EscapeDataString(value)}")?[1..] ?? RawUri(key) ?? PureIdentityUri(key, 0)!;

    internal static string UrnName(IdentityKind kind) => KeyFormats.Find(kind)?.UrnName ?? kind.ToString().ToLowerInvariant();

    internal static string TagName(EpcScheme scheme) => scheme.Name.ToLowerInvariant();

    private static string? WithAis(IdentityKey key, Func<string, string, string> element)
    {
        if (KeyFormats.Find(key.Kind) is not { } format)
            return null;
        if (format.SerialAi is null)
            return element(format.Ai, key.Value());
        var primary = element(format.Ai, key.Primary!);
        return key.Serial is { } serial ? primary + element(format.SerialAi, serial) : primary;
    }

    // Fields joined by dots, as they stand in both kinds of URI.
    private static string? Body(IdentityKey key, int companyPrefixLength)
    {
        switch (key.Kind)
        {
            case IdentityKind.Raw:
                return null;
            case IdentityKind.Gid:
                var (manager, objectClass, number) = key.GidFields;
                return FormattableString.Invariant($"{manager}.{objectClass}.{number}");
            case IdentityKind.Usdod:
                var (packed, count) = key.UsdodFields;
                Span<char> code = stackalloc char[6];
                return FormattableString.Invariant($"{code[..Usdod96Scheme.Code(packed, code)].ToString()}.{count}");
            case IdentityKind.Adi:
                return string.Join('.', key.Value().Split('.').Select(UrnEscapes.Escape));
            default:
                return companyPrefixLength is >= 6 and <= 12 ? Gs1Body(key, KeyFormats.Of(key.Kind), companyPrefixLength) : null;
        }
    }

    private static string? Gs1Body(IdentityKey key, KeyFormat format, int prefixLength)
    {
        var primary = key.Primary!;
        if (!format.IsFixed && (primary.Length <= prefixLength || !CompanyPrefixes.IsPrefix(primary.AsSpan(0, prefixLength))))
            return null;
        var prefix = primary.Substring(format.PrefixStart, prefixLength);
        var reference = format.IsFixed
            ? string.Concat(primary.AsSpan(format.PadDigits, format.LeadDigits), primary.AsSpan()[(format.PrefixStart + prefixLength)..(format.PadDigits + format.BodyDigits)])
            : UrnEscapes.Escape(primary[prefixLength..]);
        var body = $"{prefix}.{reference}";
        if (format.TailDigits > 0)
            body += $".{primary[^4..^2]}.{primary[^2..]}";
        // A location without extension has extension 0.
        return format.MaxSerial > 0 ? $"{body}.{UrnEscapes.Escape(key.Serial ?? "0")}" : body;
    }
}
