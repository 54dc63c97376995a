using System.Buffers.Binary;

namespace TagService.Domain.Identity;

/// <summary>
/// Reads fields of up to 64 bits, most significant bit first, a word at a time. Reading past the end yields zeros and
/// sets <see cref="Overrun"/>, so that a decoder checks once and not after every field.
/// </summary>
internal ref struct BitReader(ReadOnlySpan<byte> bytes, int bits)
{
    private readonly ReadOnlySpan<byte> _bytes = bytes;
    private readonly int _bits = bits;

    public int Position { get; private set; }

    public bool Overrun { get; private set; }

    public readonly int Remaining => _bits - Position;

    /// <summary>The next 1 to 64 bits as a number.</summary>
    public ulong Read(int count)
    {
        if (count > Remaining)
        {
            Overrun = true;
            Position = _bits;
            return 0;
        }

        var first = Position >> 3;
        var skip = Position & 7;
        var word = Word(first) << skip;
        if (skip + count > 64)
            word |= (ulong)_bytes[first + 8] >> (8 - skip);
        Position += count;
        return word >> (64 - count);
    }

    /// <summary>The next 1 to 128 bits as a number.</summary>
    public UInt128 ReadWide(int count)
    {
        if (count <= 64)
            return Read(count);
        var high = Read(count - 64);
        return new UInt128(high, Read(64));
    }

    /// <summary>Eight bytes from an index on; beyond the end zeros.</summary>
    private readonly ulong Word(int index)
    {
        if (index + 8 <= _bytes.Length)
            return BinaryPrimitives.ReadUInt64BigEndian(_bytes[index..]);
        // The last eight bytes shifted: what the tail of a 96-bit EPC needs.
        if (_bytes.Length >= 8)
            return BinaryPrimitives.ReadUInt64BigEndian(_bytes[^8..]) << (8 * (index + 8 - _bytes.Length));
        Span<byte> padded = stackalloc byte[8];
        padded.Clear();
        _bytes[index..].CopyTo(padded);
        return BinaryPrimitives.ReadUInt64BigEndian(padded);
    }
}
