using System.Text;
using CsCheck;

namespace TagService.Service.Tests.Http;

/// <summary>Bodies that are nearly right.</summary>
internal static class JsonMutations
{
    private static readonly byte[][] Fragments =
    [
        .. new[]
        {
            "null", "NaN", "1e999", "-1e999", "\"", "{", "}", "[", "]", ",", ":", "\\ud800", "\\", "true", "0", "-", "1E5", "\"category\":1,", "\"requiredRangeM\":3,",
            "\uFEFF", "//", "'", "\u0000", "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[", "99999999999999999999", "\"\\u0000\"", "\t", "é", "🚰",
        }.Select(Encoding.UTF8.GetBytes),
        [0xFF], [0xC3], [0xED, 0xA0, 0x80],
    ];

    /// <summary>Up to six edits of a valid body: a byte changed, a piece cut out, doubled, or a nasty fragment put in.</summary>
    public static Gen<byte[]> Of(IReadOnlyList<byte[]> seeds) =>
        from seed in Gen.Int[0, seeds.Count - 1].Select(i => seeds[i])
        from edits in Gen.Select(Gen.Int[0, 3], Gen.Int[0, 400], Gen.Int[0, 40], Gen.Int[0, Fragments.Length - 1].Select(i => Fragments[i]), Gen.Byte).Array[1, 6]
        select edits.Aggregate(seed, (body, e) => Edit(body, e.Item1, e.Item2 % (body.Length + 1), e.Item3, e.Item4, e.Item5));

    private static byte[] Edit(byte[] body, int kind, int at, int length, byte[] fragment, byte value)
    {
        var end = Math.Min(at + length, body.Length);
        return kind switch
        {
            0 when at < body.Length => [.. body[..at], value, .. body[(at + 1)..]],
            1 => [.. body[..at], .. body[end..]],
            2 => [.. body[..end], .. body[at..end], .. body[end..]],
            _ => [.. body[..at], .. fragment, .. body[at..]],
        };
    }
}
