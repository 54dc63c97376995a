namespace TagService.Domain.Words;

/// <summary>
/// A light stem shared by the languages of the tables: plural and case endings come off the end of a folded word as
/// long as four letters stay. It only has to bring inflected forms of one word together.
/// </summary>
internal static class Stem
{
    private const int Shortest = 4;

    /// <summary>Length of the stem within <paramref name="word"/>.</summary>
    public static int Length(ReadOnlySpan<char> word)
    {
        var length = word.Length;
        for (var pass = 0; pass < 2; pass++)
        {
            var ending = Ending(word[..length]);
            if (ending == 0 || length - ending < Shortest)
                break;
            length -= ending;
        }

        return length;
    }

    private static int Ending(ReadOnlySpan<char> w) => w switch
    {
        [.., 'e', 's'] or [.., 'e', 'n'] => 2,
        [.., 's'] or [.., 'e'] or [.., 'a'] or [.., 'o'] or [.., 'i'] or [.., 'y'] => 1,
        [.., 'u', 'x'] or [.., 'r', 'n'] or [.., 'l', 'n'] => 1,
        _ => 0,
    };
}
