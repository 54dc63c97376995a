namespace TagService.Domain.Identity.Schemes;

/// <summary>
/// The family header, filter, partition, company prefix, reference, serial: SGTIN, SSCC, SGLN, GRAI, GSRN, GSRNP, GDTI, SGCN and
/// ITIP (TDS 2.3, section 14.6; read). Their schemes differ in widths only.
/// </summary>
internal sealed class PartitionedScheme : EpcScheme
{
    private const int PieceBits = 7;
    private readonly KeyFormat _format;
    private readonly PartitionTable _table;
    private readonly SerialField _serial;

    /// <summary>A scheme.</summary>
    /// <param name="name">Name in the standard.</param>
    /// <param name="header">Header.</param>
    /// <param name="kind">Kind of identity.</param>
    /// <param name="partitionedBits">Bits of company prefix and reference together.</param>
    /// <param name="serial">The serial's field.</param>
    public PartitionedScheme(string name, byte header, IdentityKind kind, int partitionedBits, SerialField serial)
        : base(name, header, kind, 8 + 3 + 3 + partitionedBits + serial.Bits + (kind == IdentityKind.Itip ? 2 * PieceBits : 0))
    {
        _format = KeyFormats.Of(kind);
        _table = new(partitionedBits, _format.BodyDigits);
        _serial = serial;
    }

    public override bool HoldsCompanyPrefix => true;

    internal PartitionTable Table => _table;

    internal override string? Read(ref BitReader reader, out EpcContent content)
    {
        content = default;
        var filter = (int)reader.Read(3);
        if (_table.Read(ref reader, out var partition, out var prefix) is { } fault)
            return fault;
        ref readonly var row = ref _table[partition];
        var other = reader.Read(row.OtherBits);
        if (other >= row.OtherLimit)
            return "The reference has more digits than its partition allows.";
        ulong tail = 0;
        if (_format.TailDigits > 0)
        {
            var piece = reader.Read(PieceBits);
            var total = reader.Read(PieceBits);
            if (piece > 99 || total > 99)
                return "Piece or total has more than two digits.";
            tail = (piece * 100) + total;
        }

        var primary = _format.Compose(prefix, other, row.PrefixDigits, tail);
        fault = _serial.Read(ref reader, Kind, primary, _format.PrimaryDigits, out var key);
        content = new(key, filter, row.PrefixDigits);
        return fault;
    }

    internal override Refusal? Write(ref BitWriter writer, in EpcContent content)
    {
        if (_table.Find(content.CompanyPrefixLength, out var row) is { } refusal)
            return refusal;
        var (prefix, other, tail) = _format.Split(content.Key.PrimaryNumber, row.PrefixDigits);
        writer.Write((ulong)content.Filter, 3);
        PartitionTable.Write(ref writer, row, prefix);
        writer.Write(other, row.OtherBits);
        if (_format.TailDigits > 0)
        {
            writer.Write(tail / 100, PieceBits);
            writer.Write(tail % 100, PieceBits);
        }

        // Only a location may be without: extension 0 stands for the GLN itself.
        return _serial.Write(ref writer, Name, content.Key.Serial ?? "0");
    }
}
