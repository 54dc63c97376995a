using System.Globalization;
using System.Numerics;

namespace TagService.Domain.Identity.Text;

/// <summary>
/// Raw URIs without their beginning: <c>N.xHEX</c>, <c>N.xAFI.xHEX</c>, and the deprecated <c>N.DECIMAL</c> (TDS 2.3, section 15.1.2; read).
/// Bits that follow a scheme are read as such: a raw URI of a GIAI is that GIAI.
/// </summary>
internal static class RawUriText
{
    public static IdentityReading Parse(string rest, string text)
    {
        var fields = rest.Split('.');
        if (fields.Length is not (2 or 3)
            || !int.TryParse(fields[0], NumberStyles.None, CultureInfo.InvariantCulture, out var bits) || bits > EpcDecoder.MaxBits)
        {
            return Refuse(text, "The length in bits is missing or too large.", $"0 to {EpcDecoder.MaxBits}, a dot, x and the bits in hexadecimal");
        }

        byte afi = 0;
        if (fields.Length == 3
            && !(fields[1] is ['x', _] or ['x', _, _] && byte.TryParse(fields[1].AsSpan(1), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out afi)))
        {
            return Refuse(text, "The application family identifier is none.", "x and one or two hexadecimal digits");
        }

        if (Payload(fields[^1], bits) is not { } epc)
            return Refuse(text, $"The content is not {bits} bits.", $"x and {(bits + 3) / 4} hexadecimal digits");
        return fields.Length == 3
            ? new IdentityRead(new(IdentityKey.OfRaw(epc, bits, afi)), null, "The content follows an ISO/IEC 15961 application family, not GS1.")
            : IdentityRead.Of(EpcDecoder.Decode(epc, bits));
    }

    /// <summary>The bits from the left, or null.</summary>
    private static byte[]? Payload(string field, int bits)
    {
        BigInteger value;
        if (field is ['x', .. var hex])
        {
            if (hex.Length != (bits + 3) / 4 || hex.AsSpan().ContainsAnyExcept(HexText.HexDigits))
                return null;
            value = BigInteger.Parse("0" + hex, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture);
        }
        else if (field.Length is 0 or > 150 || !CharacterSet.Digits.Holds(field))
        {
            return null;
        }
        else
        {
            value = BigInteger.Parse(field, NumberStyles.None, CultureInfo.InvariantCulture);
        }

        if (value >> bits != 0)
            return null;
        var epc = new byte[(bits + 7) / 8];
        var left = (value << ((8 * epc.Length) - bits)).ToByteArray(isUnsigned: true, isBigEndian: true);
        left.AsSpan(Math.Max(0, left.Length - epc.Length)).CopyTo(epc.AsSpan(Math.Max(0, epc.Length - left.Length)));
        return epc;
    }

    private static IdentityRefused Refuse(string text, string detail, string accepted) =>
        IdentityReading.Refuse("identity", text, detail, accepted);
}
