namespace TagService.Domain.Identity;

/// <summary>Writes fields of up to 64 bits, most significant bit first, into a cleared buffer; counts on when the buffer is full.</summary>
internal ref struct BitWriter(Span<byte> bytes)
{
    private readonly Span<byte> _bytes = bytes;

    /// <summary>Bits written so far; more than the buffer holds means that it did not fit.</summary>
    public int Position { get; private set; }

    /// <summary>The low bits of a number, 0 to 64 of them.</summary>
    public void Write(ulong value, int count)
    {
        for (var left = count; left > 0;)
        {
            var free = 8 - (Position & 7);
            var take = Math.Min(free, left);
            var part = (value >> (left - take)) & ((1ul << take) - 1);
            if (Position >> 3 < _bytes.Length)
                _bytes[Position >> 3] |= unchecked((byte)(part << (free - take)));
            Position += take;
            left -= take;
        }
    }

    /// <summary>The low bits of a number, 0 to 128 of them.</summary>
    public void WriteWide(UInt128 value, int count)
    {
        if (count > 64)
            Write(unchecked((ulong)(value >> 64)), count - 64);
        Write(unchecked((ulong)value), Math.Min(count, 64));
    }
}
