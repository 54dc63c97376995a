using System.Buffers;
using System.Buffers.Text;
using System.Text.Encodings.Web;
using System.Text.Unicode;

namespace TagService.Api.Http.Json;

/// <summary>
/// JSON text built in one rented piece of memory, for the answers that are long and asked for often. It takes the caller's
/// word for the structure: what is written must be held against the serializer by a test. Dispose of it when it is sent.
/// </summary>
public sealed class JsonBytes : IBufferWriter<byte>, IDisposable
{
    // An answer of five candidates has some 55 KB.
    private const int UsualBytes = 1 << 16;

    private static readonly JavaScriptEncoder Encoder = WireJson.Options.Encoder!;

    private byte[] _bytes = ArrayPool<byte>.Shared.Rent(UsualBytes);

    /// <summary>Bytes written so far.</summary>
    public int Length { get; private set; }

    /// <summary>What has been written; valid until the next write and until disposal.</summary>
    public ReadOnlyMemory<byte> Written => _bytes.AsMemory(0, Length);

    /// <summary>Opens an object that is no member: a whole text or an item of a list.</summary>
    public void Open() => Byte('{');

    /// <summary>Opens an object that is a member.</summary>
    public void Open(ReadOnlySpan<byte> name)
    {
        Name(name);
        Byte('{');
    }

    /// <summary>Closes the object opened last.</summary>
    public void Close() => Byte('}');

    /// <summary>A member with a text.</summary>
    public void Text(ReadOnlySpan<byte> name, string value)
    {
        Name(name);
        Text(value);
    }

    /// <summary>A member that is left out when it has no text.</summary>
    public void TextIfAny(ReadOnlySpan<byte> name, string? value)
    {
        if (value is not null)
            Text(name, value);
    }

    /// <summary>A member with a finite number.</summary>
    public void Number(ReadOnlySpan<byte> name, double value)
    {
        Name(name);
        Length += JsonNumber.Write(value, Room(JsonNumber.MaxBytes));
    }

    /// <inheritdoc cref="Number(ReadOnlySpan{byte}, double)"/>
    public void Number(ReadOnlySpan<byte> name, decimal value)
    {
        Name(name);
        Utf8Formatter.TryFormat(value, Room(JsonNumber.MaxBytes), out var written);
        Length += written;
    }

    /// <inheritdoc cref="Number(ReadOnlySpan{byte}, double)"/>
    public void Number(ReadOnlySpan<byte> name, long value)
    {
        Name(name);
        Utf8Formatter.TryFormat(value, Room(JsonNumber.MaxBytes), out var written);
        Length += written;
    }

    /// <summary>A member that is true or false.</summary>
    public void Flag(ReadOnlySpan<byte> name, bool value)
    {
        Name(name);
        this.Write(value ? "true"u8 : "false"u8);
    }

    /// <summary>A member that is null.</summary>
    public void Null(ReadOnlySpan<byte> name)
    {
        Name(name);
        this.Write("null"u8);
    }

    /// <summary>A member with a list of texts.</summary>
    public void Texts(ReadOnlySpan<byte> name, IReadOnlyList<string> items)
    {
        Name(name);
        Byte('[');
        for (var i = 0; i < items.Count; i++)
        {
            if (i > 0)
                Byte(',');
            Text(items[i]);
        }

        Byte(']');
    }

    /// <summary>A member with a list of objects; <paramref name="members"/> writes what is inside each.</summary>
    public void Objects<T>(ReadOnlySpan<byte> name, IReadOnlyList<T> items, Action<JsonBytes, T> members)
    {
        Name(name);
        Byte('[');
        for (var i = 0; i < items.Count; i++)
        {
            if (i > 0)
                Byte(',');
            Byte('{');
            members(this, items[i]);
            Byte('}');
        }

        Byte(']');
    }

    /// <summary>Writes once more what stands in a range already written.</summary>
    public void Again(int start, int end)
    {
        var room = Room(end - start);
        _bytes.AsSpan(start..end).CopyTo(room);
        Length += end - start;
    }

    /// <summary>The name of a member, with the comma before it.</summary>
    /// <param name="name">Letters and digits: it is written as it is.</param>
    public void Name(ReadOnlySpan<byte> name)
    {
        var room = Room(name.Length + 4);
        var at = 0;
        if (Length > 0 && _bytes[Length - 1] != '{')
            room[at++] = (byte)',';
        room[at++] = (byte)'"';
        name.CopyTo(room[at..]);
        at += name.Length;
        room[at] = (byte)'"';
        room[at + 1] = (byte)':';
        Length += at + 2;
    }

    /// <inheritdoc />
    public void Advance(int count) => Length += count;

    /// <inheritdoc />
    public Memory<byte> GetMemory(int sizeHint = 0)
    {
        Room(Math.Max(1, sizeHint));
        return _bytes.AsMemory(Length);
    }

    /// <inheritdoc />
    public Span<byte> GetSpan(int sizeHint = 0) => Room(Math.Max(1, sizeHint));

    /// <inheritdoc />
    public void Dispose()
    {
        if (_bytes.Length > 0)
            ArrayPool<byte>.Shared.Return(_bytes);
        (_bytes, Length) = ([], 0);
    }

    private void Text(string value)
    {
        // A UTF-16 unit takes three bytes at most.
        var room = Room((3 * value.Length) + 2);
        if (Utf8.FromUtf16(value, room[1..], out _, out var written, replaceInvalidSequences: false) != OperationStatus.Done
            || Encoder.FindFirstCharacterToEncodeUtf8(room.Slice(1, written)) >= 0)
        {
            var escaped = Encoder.Encode(value);
            room = Room((3 * escaped.Length) + 2);
            Utf8.FromUtf16(escaped, room[1..], out _, out written);
        }

        room[0] = (byte)'"';
        room[written + 1] = (byte)'"';
        Length += written + 2;
    }

    private void Byte(char one)
    {
        Room(1)[0] = (byte)one;
        Length++;
    }

    private Span<byte> Room(int bytes)
    {
        if (_bytes.Length - Length < bytes)
            Grow(bytes);
        return _bytes.AsSpan(Length);
    }

    private void Grow(int bytes)
    {
        var larger = ArrayPool<byte>.Shared.Rent(Math.Max(2 * _bytes.Length, checked(Length + bytes)));
        _bytes.AsSpan(0, Length).CopyTo(larger);
        ArrayPool<byte>.Shared.Return(_bytes);
        _bytes = larger;
    }
}
