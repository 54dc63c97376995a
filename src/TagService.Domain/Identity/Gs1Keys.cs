using System.Globalization;
using TagService.Domain.Identity.Text;

namespace TagService.Domain.Identity;

/// <summary>
/// GS1 keys from their parts. Numbers that must never repeat are given out elsewhere; here is the pure function from company prefix and
/// number to key, and <see cref="Schemes.EpcScheme.Encode"/> from key to bits.
/// </summary>
public static class Gs1Keys
{
    /// <summary>GIAI: an asset of its own (at most 30 characters with the prefix).</summary>
    /// <param name="companyPrefix">The owner's GS1 company prefix, 6 to 12 digits.</param>
    /// <param name="reference">Individual asset reference; digits without leading zeros go into GIAI-96.</param>
    public static IdentityReading Giai(string companyPrefix, string reference) => OfParts(KeyFormats.Of(IdentityKind.Giai), companyPrefix, reference, "", "");

    /// <summary>GRAI: a returnable asset of a type, with its serial.</summary>
    /// <param name="companyPrefix">The owner's GS1 company prefix, 6 to 12 digits.</param>
    /// <param name="assetType">Asset type: with the prefix 12 digits, empty beside a prefix of 12.</param>
    /// <param name="serial">Serial, 1 to 16 characters.</param>
    public static IdentityReading Grai(string companyPrefix, string assetType, string serial) =>
        OfParts(KeyFormats.Of(IdentityKind.Grai), companyPrefix, assetType, "", serial);

    /// <summary>SGTIN: a trade item with its serial.</summary>
    /// <param name="companyPrefix">The GS1 company prefix, 6 to 12 digits.</param>
    /// <param name="itemReference">Indicator digit (0 for single items) and item reference: with the prefix 13 digits.</param>
    /// <param name="serial">Serial, 1 to 20 characters.</param>
    public static IdentityReading Sgtin(string companyPrefix, string itemReference, string serial) =>
        OfParts(KeyFormats.Of(IdentityKind.Sgtin), companyPrefix, itemReference, "", serial);

    /// <summary>A key from the fields of its URN.</summary>
    internal static IdentityReading OfParts(KeyFormat format, string companyPrefix, string reference, string tail, string serial)
    {
        if (!CompanyPrefixes.IsPrefix(companyPrefix))
            return IdentityReading.Refuse("companyPrefix", companyPrefix, "This is no GS1 company prefix.", "6 to 12 digits");
        if (!format.IsFixed)
            return OfValues(format, companyPrefix + reference, serial, companyPrefix.Length);
        var digits = format.OtherDigits(companyPrefix.Length);
        if (reference.Length != digits || !CharacterSet.Digits.Holds(reference))
        {
            return IdentityReading.Refuse(
                ReferenceName(format.Kind), reference, $"Company prefix and this field together have {format.BodyDigits} digits.",
                digits == 0 ? "nothing, beside a company prefix of 12 digits" : $"{digits} digits, beside a company prefix of {companyPrefix.Length}");
        }

        if (tail.Length != format.TailDigits || !CharacterSet.Digits.Holds(tail))
            return IdentityReading.Refuse("pieceAndTotal", tail, "Piece and total have two digits each.", "four digits");
        var primary = format.Compose(Number(companyPrefix), Number(reference), companyPrefix.Length, Number(tail));
        return OfValues(format, IdentityKey.Digits(primary, format.PrimaryDigits), serial, companyPrefix.Length);
    }

    /// <summary>A key from the values of its AIs; the serial that follows the key within one AI comes apart.</summary>
    internal static IdentityReading OfValues(KeyFormat format, ReadOnlySpan<char> primary, ReadOnlySpan<char> serial, int companyPrefixLength = 0)
    {
        if (format.Fault(primary, serial) is not { } fault)
            return new IdentityRead(new(IdentityKey.OfText(format.Kind, primary, serial), CompanyPrefixLength: companyPrefixLength));
        return fault switch
        {
            KeyFormat.WrongCheckDigit => IdentityReading.Refuse(
                "checkDigit", primary.Slice(format.PadDigits + format.BodyDigits, 1), fault,
                Text(CheckDigit.Of(Number(primary.Slice(format.PadDigits, format.BodyDigits))))),
            KeyFormat.NoSerial or KeyFormat.WrongSerial => IdentityReading.Refuse(
                "serial", serial, fault, format.MaxSerial == 0 ? "no serial" : $"1 to {format.MaxSerial} {format.SerialSet.Name}"),
            _ => IdentityReading.Refuse(
                format.IsFixed ? "key" : "reference", primary, fault,
                format.IsFixed
                    ? $"{format.PrimaryDigits} digits{(format.PadDigits > 0 ? ", the first 0" : "")}"
                    : $"company prefix and reference of together at most {format.MaxPrimary} {format.PrimarySet.Name}"),
        };
    }

    private static string ReferenceName(IdentityKind kind) => kind switch
    {
        IdentityKind.Grai => "assetType",
        IdentityKind.Sgtin or IdentityKind.Itip => "itemReference",
        _ => "reference",
    };

    private static ulong Number(ReadOnlySpan<char> digits) => digits.IsEmpty ? 0 : ulong.Parse(digits, NumberStyles.None, CultureInfo.InvariantCulture);

    private static string Text(int value) => value.ToString(CultureInfo.InvariantCulture);
}
