using System.Buffers;
using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace TagService.Domain.Registers;

/// <summary>
/// Tells rows of one source apart by 128 bits of SHA-256 over names and values and over the settings by which they are read. Not for several
/// threads at once.
/// </summary>
/// <remarks>Among a million different rows two look alike with a probability of 1.5e-27 (birthday bound, n² / 2^129).</remarks>
/// <param name="settingsHash">Version of the settings.</param>
public sealed class RowHash(string settingsHash)
{
    /// <summary>Length of a hash in bytes.</summary>
    public const int Bytes = 16;

    private readonly ArrayBufferWriter<byte> _text = new(4096);
    private RegisterColumns? _columns;
    private byte[] _head = [];

    /// <summary>The hash of a row.</summary>
    /// <param name="row">The row as read.</param>
    /// <returns>16 bytes.</returns>
    public byte[] Of(RegisterRow row)
    {
        if (!ReferenceEquals(_columns, row.Columns))
            _head = HeadOf(row.Columns);
        _columns = row.Columns;
        _text.ResetWrittenCount();
        _text.Write(_head);
        foreach (var value in row.Values)
        {
            Number((int)value.Kind);
            if (value.Items is { } items)
            {
                Number(items.Count);
                foreach (var item in items)
                    Text(item);
            }
            else
            {
                Text(value.Text);
            }
        }

        return SHA256.HashData(_text.WrittenSpan)[..Bytes];
    }

    private byte[] HeadOf(RegisterColumns columns)
    {
        _text.ResetWrittenCount();
        Text(settingsHash);
        Number(columns.Names.Count);
        foreach (var name in columns.Names)
            Text(name);
        return SHA256.HashData(_text.WrittenSpan);
    }

    // Each text with its length before it: no two rows have the same bytes.
    private void Text(string text)
    {
        var most = Encoding.UTF8.GetMaxByteCount(text.Length);
        var span = _text.GetSpan(sizeof(int) + most);
        var length = Encoding.UTF8.GetBytes(text, span[sizeof(int)..]);
        BinaryPrimitives.WriteInt32LittleEndian(span, length);
        _text.Advance(sizeof(int) + length);
    }

    private void Number(int number)
    {
        BinaryPrimitives.WriteInt32LittleEndian(_text.GetSpan(sizeof(int)), number);
        _text.Advance(sizeof(int));
    }
}
