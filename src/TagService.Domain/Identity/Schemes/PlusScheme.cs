namespace TagService.Domain.Identity.Schemes;

/// <summary>
/// The <c>+</c> family (TDS 2.0) and the <c>++</c> family (TDS 2.3): header, toggle bit, filter, [date], key in decimal digits,
/// [serial], [host name] (TDS 2.3, sections 14.5 and 14.6; read). They do not hold where the company prefix ends and have no URN.
/// </summary>
internal sealed class PlusScheme : EpcScheme
{
    // GTIN and serial are the longest: 18 + 20; a CPI of 30 and its serial 12.
    private const int MaxPrimary = 30;
    private const int MaxSerial = 20;

    private readonly KeyFormat _format;

    /// <summary>A scheme.</summary>
    /// <param name="name">Name; <c>++</c> at its end means that a host name follows.</param>
    /// <param name="header">Header.</param>
    /// <param name="kind">Kind of identity; what its key looks like says how it is written.</param>
    /// <param name="dated">A date stands before the key.</param>
    public PlusScheme(string name, byte header, IdentityKind kind, bool dated = false)
        : base(name, header, kind, FixedLength(name, kind))
    {
        _format = KeyFormats.Of(kind);
        HoldsDate = dated;
        HoldsHostName = EndsWithHost(name);
    }

    public override bool HasTagUri => false;

    public override bool HoldsDate { get; }

    public override bool HoldsHostName { get; }

    internal override string? Read(ref BitReader reader, out EpcContent content)
    {
        content = default;
        var more = reader.Read(1) != 0;
        var filter = (int)reader.Read(3);
        PrioritisedDate? date = HoldsDate ? PrioritisedDate.Read(ref reader) : null;
        if (date is { IsValid: false })
            return "The date or its type is none.";
        Span<char> primary = stackalloc char[MaxPrimary];
        Span<char> serial = stackalloc char[MaxSerial];
        var serialLength = 0;
        var fault = ReadPrimary(ref reader, primary, out var primaryLength) ?? ReadSerial(ref reader, serial[.._format.MaxSerial], out serialLength);
        if (fault is not null || reader.Overrun)
            return fault;
        primary = primary[..primaryLength];
        serial = serial[..serialLength];
        string? host = null;
        fault = _format.Fault(primary, serial) ?? (HoldsHostName ? HostNameCode.Read(ref reader, out host) : null);
        if (fault is null)
            content = new(IdentityKey.OfText(Kind, primary, serial), filter, 0, date, host, more);
        return fault;
    }

    internal override Refusal? Write(ref BitWriter writer, in EpcContent content)
    {
        if (HoldsDate && content.Date is not { IsValid: true })
            return new("date", content.Date?.Digits, $"{Name} begins with a date.", "a date type 0 to 6 and a date of the calendar");
        var primary = content.Key.Primary!;
        writer.Write(content.HasMoreData ? 1u : 0u, 1);
        writer.Write((ulong)content.Filter, 3);
        if (HoldsDate)
            content.Date!.Value.Write(ref writer);
        WritePrimary(ref writer, primary);
        if (_format.MaxSerial > 0)
            WriteSerial(ref writer, content.Key.Serial ?? "0");
        return HoldsHostName ? HostNameCode.Write(ref writer, Name, content.HostName) : null;
    }

    private string? ReadPrimary(ref BitReader reader, scoped Span<char> text, out int length)
    {
        if (!_format.IsFixed)
            return DelimitedNumeric.Read(ref reader, text[.._format.MaxPrimary], out length);
        length = _format.PrimaryDigits;
        foreach (ref var c in text[..length])
        {
            var nibble = reader.Read(4);
            if (nibble > 9)
                return "Four bits of the key are no decimal digit.";
            c = (char)('0' + nibble);
        }

        return null;
    }

    private string? ReadSerial(ref BitReader reader, scoped Span<char> text, out int length)
    {
        length = 0;
        if (_format.MaxSerial == 0)
            return null;
        return IsNumericSerial ? VariableNumeric.Read(ref reader, text, out length) : VariableAlphanumeric.Read(ref reader, text, out length);
    }

    private void WritePrimary(ref BitWriter writer, string primary)
    {
        if (!_format.IsFixed)
        {
            DelimitedNumeric.Write(ref writer, primary);
            return;
        }

        foreach (var c in primary)
            writer.Write((ulong)(c - '0'), 4);
    }

    private void WriteSerial(ref BitWriter writer, string serial)
    {
        if (IsNumericSerial)
            VariableNumeric.Write(ref writer, serial);
        else
            VariableAlphanumeric.Write(ref writer, serial);
    }

    private bool IsNumericSerial => _format.SerialSet == CharacterSet.Digits;

    private static bool EndsWithHost(string name) => name.EndsWith("++", StringComparison.Ordinal);

    // Keys of digits without a serial have one length: 84 bits.
    private static int? FixedLength(string name, IdentityKind kind) =>
        KeyFormats.Of(kind) is { IsFixed: true, MaxSerial: 0 } format && !EndsWithHost(name) ? 8 + 1 + 3 + (4 * format.PrimaryDigits) : null;
}
