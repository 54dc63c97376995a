using System.Buffers;
using System.Text.Json;
using TagService.Api.Http.Problems;

namespace TagService.Api.Http.Json;

/// <summary>Words for bodies that are not JSON.</summary>
internal static class SyntaxMessages
{
    private static readonly SearchValues<byte> WordBytes =
        SearchValues.Create("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+-._"u8);

    public static ProblemError InvalidUtf8(ReadOnlySpan<byte> json, int offset)
    {
        var (line, column) = JsonText.Position(json, offset);
        var value = $"0x{json[offset]:X2}";
        // Every second byte zero, or the mark of UTF-16 or UTF-32, tells what it is.
        var guess = json.Length >= 2 && json[..2] is [0xFF, 0xFE] or [0xFE, 0xFF] ? " It begins like UTF-16." : "";
        return new("#", value, $"Line {line}, column {column}: byte {offset} is not UTF-8.{guess}", "JSON in UTF-8");
    }

    public static ProblemError Of(ReadOnlySpan<byte> json, JsonException e, int depth, string pointer)
    {
        var offset = Offset(json, e);
        var (line, column) = JsonText.Position(json, offset);
        var rest = json[Math.Min(offset, json.Length)..];
        var (what, accepted) = What(rest, depth);
        var token = JsonText.Clip(rest[..TokenLength(rest)]);
        return new(pointer, token.Length == 0 ? null : token, $"Line {line}, column {column}: {what}", accepted);
    }

    private static (string What, string Accepted) What(ReadOnlySpan<byte> rest, int depth)
    {
        if (rest.IsEmpty)
            return ("the body ends before the value is complete.", "a complete JSON value");
        if (rest[0] is (byte)'{' or (byte)'[' && depth >= WireJson.MaxDepth)
            return ($"objects and arrays nest deeper than {WireJson.MaxDepth} levels.", $"at most {WireJson.MaxDepth} levels");
        if (rest.StartsWith("NaN"u8) || rest.StartsWith("Infinity"u8) || rest.StartsWith("-Infinity"u8) || rest.StartsWith("nan"u8))
            return ("this is no JSON number; leave out what is not known.", "a finite number");
        return rest[0] switch
        {
            (byte)'\'' => ("texts and names stand in double quotes.", "\"text\""),
            (byte)'/' or (byte)'#' => ("JSON has no comments.", "no comment"),
            (byte)']' or (byte)'}' => ($"unexpected {(char)rest[0]}, perhaps after a comma too many or without its opening bracket.", "JSON (RFC 8259)"),
            < 0x20 => ("a control character stands in a text or between values; write it escaped, for example \\n.", "JSON (RFC 8259)"),
            _ => ($"unexpected {JsonText.Clip(rest[..TokenLength(rest)])}.", "JSON (RFC 8259): an object such as {\"category\":\"pump\"}"),
        };
    }

    private static int Offset(ReadOnlySpan<byte> json, JsonException e)
    {
        var lineStart = 0;
        for (var line = 0L; line < e.LineNumber; line++)
            lineStart += json[lineStart..].IndexOf((byte)'\n') + 1;
        return (int)Math.Min(lineStart + (e.BytePositionInLine ?? 0), json.Length);
    }

    // A word or number as a whole, else one character with all its bytes.
    private static int TokenLength(ReadOnlySpan<byte> rest)
    {
        var word = rest.IndexOfAnyExcept(WordBytes);
        if (word != 0)
            return word < 0 ? rest.Length : word;
        var end = 1;
        while (end < rest.Length && (rest[end] & 0xC0) == 0x80)
            end++;
        return end;
    }
}
