namespace TagService.Domain.Words;

/// <summary>
/// Whether a text can be the id of something that has an address of its own. The id is one segment of a path; what addresses do to
/// some texts on their way would leave the thing unreachable for ever. Texts that never become an address are free.
/// </summary>
public static class ResourceId
{
    /// <summary>What is accepted, for messages.</summary>
    public const string Accepted = "text that can stand in an address: not empty, not \".\" or \"..\", without control characters, without %2F";

    /// <summary>Why the text cannot be an id, in one sentence; null when it can.</summary>
    /// <param name="id">The text.</param>
    public static string? FaultOf(string id)
    {
        ArgumentNullException.ThrowIfNull(id);
        if (id.Length == 0)
            return "The id is empty.";
        // Directions, no segments: every client and server takes them out of an address (RFC 3986, section 5.2.4; WHATWG URL also where they are escaped).
        if (id is "." or "..")
            return "The id is a dot segment, which clients and servers take out of an address.";
        if (HasControl(id))
            return "The id has a control character.";
        // A slash within a segment arrives as %2F, because servers do not decode it there; the text %2F would be taken for it.
        if (id.Contains("%2F", StringComparison.OrdinalIgnoreCase))
            return "The id has the text %2F, which in an address stands for a slash.";
        return IsPaired(id) ? null : "The id has half a character (a lone surrogate), which no address can carry.";
    }

    // A loop: a register's load asks this of every asset.
    private static bool HasControl(string text)
    {
        foreach (var c in text)
        {
            if (char.IsControl(c))
                return true;
        }

        return false;
    }

    private static bool IsPaired(string text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            if (!char.IsSurrogate(text[i]))
                continue;
            if (i + 1 == text.Length || !char.IsSurrogatePair(text[i], text[i + 1]))
                return false;
            i++;
        }

        return true;
    }
}
