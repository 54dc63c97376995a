using System.Buffers.Binary;
using System.Runtime.InteropServices;
using System.Security.Cryptography;

namespace TagService.Intake.Registers;

/// <summary>
/// Notices rows and keys that come again within a pass. Keeps 16 bytes a row, of the first 500,000 rows; a resumed pass starts with
/// an empty memory.
/// </summary>
internal sealed class RepeatWatch
{
    private const int Most = 500_000;

    private readonly Dictionary<ulong, ulong> _contentByKey = [];
    private readonly List<(ulong Id, ulong? Before)> _sinceKept = [];

    /// <summary>Rows that came again.</summary>
    public long Repeats { get; private set; }

    /// <summary>Tells whether a row came before and remembers it.</summary>
    /// <param name="key">Its key; null when the source has none, then the whole row is its key.</param>
    /// <param name="row">The row as the source wrote it.</param>
    public RowRepeat Note(string? key, ReadOnlySpan<byte> row)
    {
        var content = Hash(row);
        var id = key is null ? content : Hash(MemoryMarshal.AsBytes(key.AsSpan()));
        if (_contentByKey.TryGetValue(id, out var before))
        {
            _contentByKey[id] = content;
            _sinceKept.Add((id, before));
            Repeats++;
            return before == content ? RowRepeat.Same : RowRepeat.Changed;
        }

        if (_contentByKey.Count < Most)
        {
            _contentByKey.Add(id, content);
            _sinceKept.Add((id, null));
        }

        return RowRepeat.None;
    }

    /// <summary>The rows noted since the last call were handed on.</summary>
    public void Keep() => _sinceKept.Clear();

    /// <summary>The rows noted since the last call of <see cref="Keep"/> were not handed on and will come again.</summary>
    public void Forget()
    {
        for (var i = _sinceKept.Count - 1; i >= 0; i--)
        {
            var (id, before) = _sinceKept[i];
            if (before is { } content)
            {
                _contentByKey[id] = content;
                Repeats--;
            }
            else
            {
                _contentByKey.Remove(id);
            }
        }

        _sinceKept.Clear();
    }

    // The first 64 bits of SHA-256: among 500,000 rows a chance of 1e-8 that two different ones look alike (birthday bound).
    private static ulong Hash(ReadOnlySpan<byte> bytes)
    {
        Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
        SHA256.HashData(bytes, hash);
        return BinaryPrimitives.ReadUInt64LittleEndian(hash);
    }
}
