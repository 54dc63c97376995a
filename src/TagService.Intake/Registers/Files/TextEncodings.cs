using System.Globalization;
using System.Text;
using System.Text.Unicode;

namespace TagService.Intake.Registers.Files;

/// <summary>How a file's characters are written, and how sure that is.</summary>
/// <param name="Encoding">The encoding; bytes that do not belong to it become U+FFFD.</param>
/// <param name="Confidence">From 0 to 1; planning values.</param>
/// <param name="Reason">Why.</param>
public sealed record DetectedEncoding(Encoding Encoding, double Confidence, string Reason);

/// <summary>Encodings of text files.</summary>
public static class TextEncodings
{
    private const int Chunk = 128 * 1024;

    // Bytes that Windows-1252 leaves undefined (WHATWG Encoding Standard and IANA registration, from memory).
    private static readonly byte[] NotInWindows1252 = [0x81, 0x8D, 0x8F, 0x90, 0x9D];

    /// <summary>Names that can be configured.</summary>
    public static IReadOnlyList<string> Names { get; } = ["utf-8", "utf-16", "utf-16be", "windows-1252"];

    /// <summary>The encoding of a configured name.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not one of <see cref="Names"/>.</exception>
    public static Encoding Of(string name) => name switch
    {
        "utf-8" => new UTF8Encoding(false),
        "utf-16" => Encoding.Unicode,
        "utf-16be" => Encoding.BigEndianUnicode,
        "windows-1252" => CodePagesEncodingProvider.Instance.GetEncoding(1252)!,
        _ => throw new ArgumentOutOfRangeException(nameof(name), name, $"name is {name}; accepted: {string.Join(", ", Names)}."),
    };

    /// <summary>Finds out the encoding; reads the whole stream, which can seek, and leaves it at its beginning.</summary>
    public static DetectedEncoding Detect(Stream stream)
    {
        var buffer = new byte[Chunk];
        stream.Position = 0;
        var first = buffer.AsSpan(0, stream.ReadAtLeast(buffer, buffer.Length, throwOnEndOfStream: false));
        var found = ByMark(first) ?? ByZeros(first);
        if (found is null)
        {
            stream.Position = 0;
            found = ByValidity(stream, buffer);
        }

        stream.Position = 0;
        return found;
    }

    private static DetectedEncoding? ByMark(ReadOnlySpan<byte> first) => first switch
    {
        [0xEF, 0xBB, 0xBF, ..] => new(Of("utf-8"), 1, "the byte order mark of UTF-8"),
        [0xFF, 0xFE, 0, 0, ..] => new(Encoding.UTF32, 1, "the byte order mark of UTF-32"),
        [0xFF, 0xFE, ..] => new(Of("utf-16"), 1, "the byte order mark of UTF-16, little end first"),
        [0xFE, 0xFF, ..] => new(Of("utf-16be"), 1, "the byte order mark of UTF-16, big end first"),
        _ => null,
    };

    // Text of Latin letters in UTF-16 has a zero in nearly every second byte; other text has none.
    private static DetectedEncoding? ByZeros(ReadOnlySpan<byte> first)
    {
        int even = 0, odd = 0;
        for (var i = 0; i < first.Length; i++)
        {
            if (first[i] != 0)
                continue;
            if (i % 2 == 0)
                even++;
            else
                odd++;
        }

        var enough = first.Length / 5;
        if (odd > enough && even < odd / 10)
            return new(Of("utf-16"), 0.9, "zeros in every second byte");
        return even > enough && odd < even / 10 ? new(Of("utf-16be"), 0.9, "zeros in every second byte, the first of each pair") : null;
    }

    private static DetectedEncoding ByValidity(Stream stream, byte[] buffer)
    {
        long before = 0;
        int kept = 0, read;
        bool isAscii = true, undefined = false, isUtf8 = true;
        while ((read = stream.Read(buffer, kept, buffer.Length - kept)) > 0)
        {
            var bytes = buffer.AsSpan(0, kept + read);
            isAscii = isAscii && Ascii.IsValid(bytes);
            undefined |= bytes.IndexOfAny(NotInWindows1252) >= 0;
            var whole = isUtf8 ? bytes[..^Unfinished(bytes)] : bytes;
            isUtf8 = isUtf8 && Utf8.IsValid(whole);
            kept = bytes.Length - whole.Length;
            bytes[whole.Length..].CopyTo(buffer);
            before += whole.Length;
        }

        isUtf8 &= kept == 0;
        if (isAscii)
            return new(Of("utf-8"), 1, "nothing but ASCII");
        if (isUtf8)
            return new(Of("utf-8"), 0.99, string.Create(CultureInfo.InvariantCulture, $"all {before} bytes are UTF-8"));
        return new(Of("windows-1252"), undefined ? 0.3 : 0.7, "it is not UTF-8, and Windows-1252 is the usual other" + (undefined ? "; but some bytes are undefined there" : ""));
    }

    // Bytes at the end that begin a character of UTF-8 whose rest may come with the next chunk.
    private static int Unfinished(ReadOnlySpan<byte> bytes)
    {
        for (var back = 1; back <= Math.Min(3, bytes.Length); back++)
        {
            var b = bytes[^back];
            if ((b & 0xC0) == 0x80)
                continue;
            var length = b >= 0xF0 ? 4 : b >= 0xE0 ? 3 : b >= 0xC0 ? 2 : 1;
            return length > back ? back : 0;
        }

        return 0;
    }
}
