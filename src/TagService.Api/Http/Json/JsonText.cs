using System.Text;
using System.Text.Json;
using System.Text.Unicode;

namespace TagService.Api.Http.Json;

/// <summary>Checks of the bytes that the serializer leaves out, and texts made of them for messages.</summary>
internal static class JsonText
{
    private const int ClipAt = 80;

    /// <summary>UTF-8 throughout, and no escape of half a surrogate pair (it would throw later, when the text is read).</summary>
    public static bool IsSound(ReadOnlySpan<byte> json) =>
        Utf8.IsValid(json) && (json.IndexOf("\\u"u8) < 0 || SurrogatesArePaired(json));

    /// <summary>Offset of the first byte that is not UTF-8, or -1.</summary>
    public static int FirstInvalidByte(ReadOnlySpan<byte> json)
    {
        var offset = 0;
        while (offset < json.Length)
        {
            if (Rune.DecodeFromUtf8(json[offset..], out _, out var length) != System.Buffers.OperationStatus.Done)
                return offset;
            offset += length;
        }

        return -1;
    }

    /// <summary>Line and column, both counted from 1, columns in characters (code points) as editors show them.</summary>
    public static (int Line, int Column) Position(ReadOnlySpan<byte> json, int offset)
    {
        var before = json[..Math.Clamp(offset, 0, json.Length)];
        var lineStart = before.LastIndexOf((byte)'\n') + 1;
        var column = 1;
        foreach (var b in before[lineStart..])
            column += (b & 0xC0) == 0x80 ? 0 : 1;
        return (before.Count((byte)'\n') + 1, column);
    }

    /// <summary>Text for a message: at most 80 characters, control characters replaced.</summary>
    public static string Clip(string text)
    {
        var cut = text.Length > ClipAt;
        var end = cut ? ClipAt - 1 : text.Length;
        if (cut && char.IsHighSurrogate(text[end - 1]))
            end--;
        return string.Concat(text.AsSpan(0, end).ToString().Select(c => char.IsControl(c) ? ' ' : c)) + (cut ? "…" : "");
    }

    /// <inheritdoc cref="Clip(string)"/>
    public static string Clip(ReadOnlySpan<byte> utf8) =>
        Clip(Encoding.UTF8.GetString(utf8[..Math.Min(utf8.Length, 4 * (ClipAt + 1))]));

    private static bool SurrogatesArePaired(ReadOnlySpan<byte> json)
    {
        var reader = new Utf8JsonReader(json, new JsonReaderOptions { MaxDepth = WireJson.MaxDepth });
        try
        {
            while (reader.Read())
            {
                if (reader.ValueIsEscaped && reader.TokenType is JsonTokenType.String or JsonTokenType.PropertyName)
                    _ = reader.GetString();
            }
        }
        catch (InvalidOperationException)
        {
            return false;
        }
        catch (JsonException)
        {
            // Not well formed: whoever reads it next says so, with the place.
        }

        return true;
    }
}
