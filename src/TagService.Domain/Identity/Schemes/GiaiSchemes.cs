using System.Globalization;

namespace TagService.Domain.Identity.Schemes;

/// <summary>GIAI-96: numeric individual asset reference whose limit is the width of its field (TDS 2.3, table 14-23; read).</summary>
internal sealed class Giai96Scheme() : EpcScheme("GIAI-96", 0x34, IdentityKind.Giai, 96)
{
    internal static PartitionTable Table { get; } = new(82, 25);

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
        // The key has prefix and reference as one string of digits.
        var value = (prefix * PowersOfTen.Of(digits)) + reference;
        content = new(IdentityKey.OfDigits(IdentityKind.Giai, value, row.PrefixDigits + digits), filter, row.PrefixDigits);
        return null;
    }

    internal override Refusal? Write(ref BitWriter writer, in EpcContent content)
    {
        if (PrefixedKey.Split(content, Table, out var row, out var prefix, out var reference) is { } refusal)
            return refusal;
        var most = (1ul << row.OtherBits) - 1;
        if (!SerialField.IsPlainNumber(reference, most, out var number))
        {
            return new(
                "reference", reference, "The individual asset reference does not go into GIAI-96.",
                string.Create(CultureInfo.InvariantCulture, $"digits without leading zeros, 0 to {most} beside a company prefix of {row.PrefixDigits} digits"));
        }

        writer.Write((ulong)content.Filter, 3);
        PartitionTable.Write(ref writer, row, prefix);
        writer.Write(number, row.OtherBits);
        return null;
    }
}

/// <summary>GIAI-202: individual asset reference of 7-bit characters (TDS 2.3, table 14-20 of section 14.6.5.2; read).</summary>
internal sealed class Giai202Scheme() : EpcScheme("GIAI-202", 0x38, IdentityKind.Giai, 202)
{
    internal static PartitionTable Table { get; } = new(188, 30);

    public override bool HoldsCompanyPrefix => true;

    internal override string? Read(ref BitReader reader, out EpcContent content)
    {
        content = default;
        var filter = (int)reader.Read(3);
        if (Table.Read(ref reader, out var partition, out var prefix) is { } fault)
            return fault;
        ref readonly var row = ref Table[partition];
        Span<char> value = stackalloc char[12 + 24];
        IdentityKey.WriteDigits(value[..row.PrefixDigits], prefix);
        fault = SevenBit.Read(ref reader, row.OtherBits, value[row.PrefixDigits..], out var length);
        if (fault is null && length > row.OtherDigits)
            fault = "The individual asset reference has more characters than its partition allows.";
        if (fault is null)
            content = new(IdentityKey.OfText(IdentityKind.Giai, value[..(row.PrefixDigits + length)], []), filter, row.PrefixDigits);
        return fault;
    }

    internal override Refusal? Write(ref BitWriter writer, in EpcContent content)
    {
        if (PrefixedKey.Split(content, Table, out var row, out var prefix, out var reference) is { } refusal)
            return refusal;
        writer.Write((ulong)content.Filter, 3);
        PartitionTable.Write(ref writer, row, prefix);
        SevenBit.Write(ref writer, reference, row.OtherBits);
        return null;
    }
}
