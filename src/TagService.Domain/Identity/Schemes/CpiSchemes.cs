using System.Globalization;

namespace TagService.Domain.Identity.Schemes;

/// <summary>CPI-96: numeric component reference and serial (TDS 2.3, table 14-34; read).</summary>
internal sealed class Cpi96Scheme() : EpcScheme("CPI-96", 0x3C, IdentityKind.Cpi, 96)
{
    private static readonly SerialField Serial = new(SerialCoding.Integer, 31);

    internal static PartitionTable Table { get; } = new(51, 15);

    public override bool HoldsCompanyPrefix => true;

    internal override string? Read(ref BitReader reader, out EpcContent content)
    {
        content = default;
        var filter = (int)reader.Read(3);
        if (Table.Read(ref reader, out var partition, out var prefix) is { } fault)
            return fault;
        ref readonly var row = ref Table[partition];
        var reference = reader.Read(row.OtherBits);
        var digits = PowersOfTen.Digits(reference);
        var primary = (prefix * PowersOfTen.Of(digits)) + reference;
        fault = Serial.Read(ref reader, IdentityKind.Cpi, primary, row.PrefixDigits + digits, out var key);
        content = new(key, filter, row.PrefixDigits);
        return fault;
    }

    internal override Refusal? Write(ref BitWriter writer, in EpcContent content)
    {
        if (PrefixedKey.Split(content, Table, out var row, out var prefix, out var reference) is { } refusal)
            return refusal;
        var most = (1ul << row.OtherBits) - 1;
        if (!SerialField.IsPlainNumber(reference, most, out var number))
        {
            return new(
                "reference", reference, "The component reference does not go into CPI-96.",
                string.Create(CultureInfo.InvariantCulture, $"digits without leading zeros, 0 to {most} beside a company prefix of {row.PrefixDigits} digits"));
        }

        writer.Write((ulong)content.Filter, 3);
        PartitionTable.Write(ref writer, row, prefix);
        writer.Write(number, row.OtherBits);
        return Serial.Write(ref writer, Name, content.Key.Serial);
    }
}

/// <summary>CPI-var: component reference of 6-bit characters, serial of 40 bits (TDS 2.3, table 14-35; read).</summary>
internal sealed class CpiVarScheme() : EpcScheme("CPI-var", 0x3D, IdentityKind.Cpi, null)
{
    private static readonly SerialField Serial = new(SerialCoding.Integer, 40);

    // The bits of the reference follow from its characters; only prefix and most characters of the table count.
    internal static PartitionTable Table { get; } = new(190, 30);

    public override bool HoldsCompanyPrefix => true;

    internal override string? Read(ref BitReader reader, out EpcContent content)
    {
        content = default;
        var filter = (int)reader.Read(3);
        if (Table.Read(ref reader, out var partition, out var prefix) is { } fault)
            return fault;
        ref readonly var row = ref Table[partition];
        Span<char> value = stackalloc char[30];
        IdentityKey.WriteDigits(value[..row.PrefixDigits], prefix);
        if (SixBit.ReadTerminated(ref reader, value[row.PrefixDigits..], out var length) is { } bad)
            return bad;
        if (length == 0)
            return "The component reference is empty.";
        var number = reader.Read(40);
        if (PowersOfTen.Digits(number) > 12)
            return "The serial has more than the 12 digits of AI 8011.";
        Span<char> serial = stackalloc char[PowersOfTen.Digits(number)];
        IdentityKey.WriteDigits(serial, number);
        content = new(IdentityKey.OfText(IdentityKind.Cpi, value[..(row.PrefixDigits + length)], serial), filter, row.PrefixDigits);
        return null;
    }

    internal override Refusal? Write(ref BitWriter writer, in EpcContent content)
    {
        if (PrefixedKey.Split(content, Table, out var row, out var prefix, out var reference) is { } refusal)
            return refusal;
        writer.Write((ulong)content.Filter, 3);
        PartitionTable.Write(ref writer, row, prefix);
        SixBit.WriteTerminated(ref writer, reference);
        return Serial.Write(ref writer, Name, content.Key.Serial);
    }
}
