using TagService.Domain.Identity.Text;

namespace TagService.Domain.Identity;

/// <summary>The kinds of GS1 keys, one row each (TDS 2.3, coding tables of section 14.6; read).</summary>
internal static class KeyFormats
{
    public static IReadOnlyList<KeyFormat> All { get; } =
    [
        new(IdentityKind.Giai, "giai", "8004") { MaxPrimary = 30, PrimarySet = CharacterSet.Gs1 },
        new(IdentityKind.Grai, "grai", "8003") { PadDigits = 1, BodyDigits = 12, MaxSerial = 16 },
        new(IdentityKind.Sgtin, "sgtin", "01") { SerialAi = "21", LeadDigits = 1, BodyDigits = 13, MaxSerial = 20 },
        new(IdentityKind.Sscc, "sscc", "00") { LeadDigits = 1, BodyDigits = 17 },
        new(IdentityKind.Sgln, "sgln", "414") { SerialAi = "254", BodyDigits = 12, MaxSerial = 20, SerialOptional = true },
        new(IdentityKind.Gdti, "gdti", "253") { BodyDigits = 12, MaxSerial = 17 },
        new(IdentityKind.Gsrn, "gsrn", "8018") { BodyDigits = 17 },
        new(IdentityKind.Gsrnp, "gsrnp", "8017") { BodyDigits = 17 },
        new(IdentityKind.Cpi, "cpi", "8010")
        {
            SerialAi = "8011", MaxPrimary = 30, PrimarySet = CharacterSet.SixBit, MaxSerial = 12, SerialSet = CharacterSet.Digits,
        },
        new(IdentityKind.Sgcn, "sgcn", "255") { BodyDigits = 12, MaxSerial = 12, SerialSet = CharacterSet.Digits },
        new(IdentityKind.Itip, "itip", "8006") { SerialAi = "21", LeadDigits = 1, BodyDigits = 13, TailDigits = 4, MaxSerial = 20 },
    ];

    private static readonly KeyFormat?[] ByKind =
        [.. Enum.GetValues<IdentityKind>().Select(k => All.FirstOrDefault(f => f.Kind == k))];

    /// <summary>The format of a kind, or null for kinds without an AI.</summary>
    public static KeyFormat? Find(IdentityKind kind) => ByKind[(int)kind];

    /// <summary>The format whose key stands behind an AI, or null.</summary>
    public static KeyFormat? FindAi(ReadOnlySpan<char> ai)
    {
        foreach (var format in All)
        {
            if (ai.SequenceEqual(format.Ai))
                return format;
        }

        return null;
    }

    /// <summary>A key from an AI's value, behind which the serial may stand, and the value of the serial's own AI.</summary>
    public static IdentityReading Read(KeyFormat format, string value, string serial)
    {
        var split = format.SerialAi is null && format.IsFixed ? Math.Min(value.Length, format.PrimaryDigits) : value.Length;
        return Gs1Keys.OfValues(format, value.AsSpan(0, split), format.SerialAi is null ? value.AsSpan(split) : serial);
    }

    /// <summary>The format of a kind that has an AI.</summary>
    public static KeyFormat Of(IdentityKind kind) => ByKind[(int)kind]!;
}
