using System.Buffers;

namespace TagService.Domain.Identity.Schemes;

/// <summary>
/// Host names of the <c>++</c> schemes: 1 bit for the way, 6 bits for the count, then URN Code 40 or 7-bit characters some of whose
/// codes stand for frequent beginnings and endings (TDS 2.3, section 14.5.16; read). The host is no part of the identity.
/// </summary>
internal static class HostNameCode
{
    private const int MaxCount = 63;

    private static readonly SearchValues<char> HostCharacters =
        SearchValues.Create("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-.:");

    /// <summary>Can it be the host (and port) of a Digital Link? The standard lets tags hold slashes and question marks too.</summary>
    public static bool IsHost(ReadOnlySpan<char> text) => text.Length is > 0 and <= MaxCount && !text.ContainsAnyExcept(HostCharacters);

    /// <summary>Reads a host; null when the characters are none a host has, which leaves the identity as it is.</summary>
    public static string? Read(ref BitReader reader, out string? host)
    {
        host = null;
        var sevenBit = reader.Read(1) != 0;
        var count = (int)reader.Read(6);
        Span<char> text = stackalloc char[MaxCount * HostSequences.LongestText];
        var length = 0;
        if (!sevenBit)
        {
            length = count;
            if (UrnCode40.Read(ref reader, text[..count]) is { } fault)
                return fault;
        }

        for (var i = 0; sevenBit && i < count; i++)
        {
            var code = (int)reader.Read(7);
            if (code < HostSequences.Pages)
            {
                // Fourteen bits count as two.
                if (++i == count)
                    return "The host name ends within a code.";
                code = ((code + 1) << 7) | (int)reader.Read(7);
            }

            if (HostSequences.Text(code) is not { } part)
                return "A code of the host name is reserved.";
            part.CopyTo(text[length..]);
            length += part.Length;
        }

        if (!reader.Overrun && IsHost(text[..length]))
            host = text[..length].ToString();
        return null;
    }

    /// <summary>Writes a host with the fewest bits, or says why it is none.</summary>
    public static Refusal? Write(ref BitWriter writer, string scheme, string? host)
    {
        if (host is null || !IsHost(host))
            return Refuse(scheme, host);
        Span<int> codes = stackalloc int[MaxCount];
        var count = 0;
        var sevens = 0;
        for (var rest = host.AsSpan(); !rest.IsEmpty; count++)
        {
            codes[count] = HostSequences.Longest(rest, out var length);
            sevens += codes[count] < 128 ? 1 : 2;
            rest = rest[length..];
        }

        var code40 = UrnCode40.Holds(host) && UrnCode40.Bits(host.Length) < 7 * sevens;
        writer.Write(code40 ? 0u : 1u, 1);
        writer.Write((ulong)(code40 ? host.Length : sevens), 6);
        if (code40)
            UrnCode40.Write(ref writer, host);
        foreach (var code in code40 ? [] : codes[..count])
        {
            if (code >= 128)
                writer.Write((ulong)((code >> 7) - 1), 7);
            writer.Write((ulong)(code & 0x7F), 7);
        }

        return null;
    }

    private static Refusal Refuse(string scheme, string? host) =>
        new("hostName", host, $"{scheme} ends with the host of the Digital Link.", "letters, digits, hyphens and dots, at most 63 characters, for example id.example.com");
}
