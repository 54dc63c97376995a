using System.Globalization;
using TagService.Domain.Identity.Schemes;

namespace TagService.Domain.Identity.Text;

/// <summary>Identities outside the GS1 keys from the fields of their URN: GID, USDoD, ADI.</summary>
internal static class OtherKeys
{
    public static IdentityReading Read(IdentityKind kind, string[] fields, string[] names)
    {
        switch (kind)
        {
            case IdentityKind.Gid:
                Span<ulong> numbers = stackalloc ulong[3];
                ReadOnlySpan<int> bits = [28, 24, 36];
                for (var i = 0; i < 3; i++)
                {
                    if (!SerialField.IsPlainNumber(fields[i], (1ul << bits[i]) - 1, out numbers[i]))
                        return NoNumber(names[i], fields[i], bits[i]);
                }

                return new IdentityRead(new(IdentityKey.OfGid(numbers[0], numbers[1], numbers[2])));
            case IdentityKind.Usdod:
                if (!IsCode(fields[0]))
                    return NoCode(fields[0]);
                return SerialField.IsPlainNumber(fields[1], (1ul << 36) - 1, out var serial)
                    ? new IdentityRead(new(IdentityKey.OfUsdod(Usdod96Scheme.Pack(fields[0]), serial)))
                    : NoNumber("serial", fields[1], 36);
            default:
                return ReadAdi(fields[0], fields[1], fields[2]);
        }
    }

    private static IdentityReading ReadAdi(string code, string part, string serial)
    {
        if (!IsCode(code))
            return NoCode(code);
        if (part.Length > AdiVarScheme.MaxPart || !CharacterSet.SixBit.Holds(part))
            return IdentityReading.Refuse("partNumber", part, "This is no ADI part number.", $"at most {AdiVarScheme.MaxPart} {CharacterSet.SixBit.Name}");
        if (serial.Length > AdiVarScheme.MaxSerial || !CharacterSet.SixBit.Holds(serial))
            return IdentityReading.Refuse("serial", serial, "This is no ADI serial.", $"1 to {AdiVarScheme.MaxSerial} {CharacterSet.SixBit.Name}");
        return AdiVarScheme.Fault(part, serial) is { } fault
            ? IdentityReading.Refuse("serial", serial, fault, $"1 to {AdiVarScheme.MaxSerial} characters, # only as the first")
            : new IdentityRead(new(IdentityKey.OfAdi(code, part, serial)));
    }

    private static bool IsCode(string code) => code.Length is 5 or 6 && CharacterSet.Cage.Holds(code);

    private static IdentityRefused NoCode(string code) =>
        IdentityReading.Refuse("code", code, "This is no CAGE code or DoDAAC.", $"5 or 6 {CharacterSet.Cage.Name}");

    private static IdentityRefused NoNumber(string field, string value, int bits) => IdentityReading.Refuse(
        field, value, "This is no number of the field's width.",
        string.Create(CultureInfo.InvariantCulture, $"digits without leading zeros, 0 to {(1ul << bits) - 1}"));
}
