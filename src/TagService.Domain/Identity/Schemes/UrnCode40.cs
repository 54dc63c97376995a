using System.Buffers;

namespace TagService.Domain.Identity.Schemes;

/// <summary>URN Code 40: three characters in 16 bits, 1600 a + 40 b + c + 1 (TDS 2.3, section 14.5.6.5, table 14-8; read).</summary>
internal static class UrnCode40
{
    // Index 0 is the padding behind the last character.
    private const string Alphabet = "\0ABCDEFGHIJKLMNOPQRSTUVWXYZ-.:0123456789";
    private static readonly SearchValues<char> Allowed = SearchValues.Create(Alphabet.AsSpan(1));

    public static bool Holds(ReadOnlySpan<char> text) => !text.ContainsAnyExcept(Allowed);

    public static int Bits(int characters) => (characters + 2) / 3 * 16;

    /// <summary>Reads exactly as many characters as the span has.</summary>
    public static string? Read(ref BitReader reader, scoped Span<char> text)
    {
        for (var i = 0; i < text.Length; i += 3)
        {
            // 0 is not 1 + anything, and 40^3 is the highest.
            var code = reader.Read(16);
            if (code is 0 or > 64_000)
                return "Sixteen bits are no three characters of URN Code 40.";
            Span<int> indexes = [(int)((code - 1) / 1600), (int)((code - 1) / 40 % 40), (int)((code - 1) % 40)];
            for (var j = 0; j < 3; j++)
            {
                if (indexes[j] == 0 != i + j >= text.Length)
                    return "URN Code 40 has its padding in the wrong place.";
                if (i + j < text.Length)
                    text[i + j] = Alphabet[indexes[j]];
            }
        }

        return null;
    }

    /// <summary>Writes characters of the alphabet.</summary>
    public static void Write(ref BitWriter writer, ReadOnlySpan<char> text)
    {
        for (var i = 0; i < text.Length; i += 3)
            writer.Write((ulong)((1600 * Index(text, i)) + (40 * Index(text, i + 1)) + Index(text, i + 2) + 1), 16);
    }

    private static int Index(ReadOnlySpan<char> text, int at) =>
        at < text.Length ? Alphabet.IndexOf(text[at], StringComparison.Ordinal) : 0;
}
