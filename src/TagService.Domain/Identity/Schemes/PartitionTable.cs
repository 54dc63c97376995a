namespace TagService.Domain.Identity.Schemes;

/// <summary>One row of a partition table: how company prefix and the field behind it share their bits.</summary>
/// <param name="Partition">Partition value, 0 to 6.</param>
/// <param name="PrefixDigits">Digits of the company prefix (L), 12 down to 6.</param>
/// <param name="PrefixBits">Bits of the company prefix (M).</param>
/// <param name="OtherBits">Bits of the other field (N).</param>
/// <param name="OtherDigits">Digits or most characters of the other field (K).</param>
internal readonly record struct PartitionRow(int Partition, int PrefixDigits, int PrefixBits, int OtherBits, int OtherDigits)
{
    /// <summary>The company prefix is below this: 10^L.</summary>
    public ulong PrefixLimit { get; } = PowersOfTen.Of64(PrefixDigits);

    /// <summary>A padded field is below this: 10^K. Of no meaning in tables whose field is not padded.</summary>
    public ulong OtherLimit { get; } = PowersOfTen.Of64(Math.Min(OtherDigits, 19));
}

/// <summary>
/// A partition table of TDS 2.3, section 14.6 (read). Bits of the two fields add up to one number in every row of a table, and so do
/// their digits; the prefix has the same bits in all tables. So two numbers make a table; the printed rows are in the tests.
/// </summary>
internal sealed class PartitionTable
{
    public const string UnknownPartition = "The partition value is none of 0 to 6.";
    public const string PrefixTooLarge = "The company prefix has more digits than its partition allows.";

    private static readonly int[] PrefixBits = [40, 37, 34, 30, 27, 24, 20];

    private readonly PartitionRow[] _rows;

    /// <summary>A table.</summary>
    /// <param name="bits">Bits of company prefix and other field together.</param>
    /// <param name="digits">Digits of both together; for fields of characters the most of both.</param>
    public PartitionTable(int bits, int digits) =>
        _rows = [.. PrefixBits.Select((m, p) => new PartitionRow(p, 12 - p, m, bits - m, digits - (12 - p)))];

    public IReadOnlyList<PartitionRow> Rows => _rows;

    /// <summary>The row of a partition value, which the caller knows to be 0 to 6.</summary>
    public ref readonly PartitionRow this[int partition] => ref _rows[partition];

    /// <summary>Reads partition and company prefix.</summary>
    /// <returns>Null, or why they are none.</returns>
    public string? Read(ref BitReader reader, out int partition, out ulong prefix)
    {
        prefix = 0;
        partition = (int)reader.Read(3);
        if (partition >= _rows.Length)
            return UnknownPartition;
        prefix = reader.Read(_rows[partition].PrefixBits);
        return prefix < _rows[partition].PrefixLimit ? null : PrefixTooLarge;
    }

    /// <summary>Writes partition and company prefix.</summary>
    public static void Write(ref BitWriter writer, in PartitionRow row, ulong prefix)
    {
        writer.Write((ulong)row.Partition, 3);
        writer.Write(prefix, row.PrefixBits);
    }

    /// <summary>The row for a company prefix, or the refusal.</summary>
    public Refusal? Find(int companyPrefixLength, out PartitionRow row)
    {
        row = default;
        if (companyPrefixLength is < 6 or > 12)
        {
            return new(
                "companyPrefix", companyPrefixLength == 0 ? null : FormattableString.Invariant($"{companyPrefixLength} digits"),
                "The scheme holds where the company prefix ends, so its length must be known.", "a GS1 company prefix of 6 to 12 digits");
        }

        row = _rows[12 - companyPrefixLength];
        return null;
    }
}
