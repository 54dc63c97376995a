namespace TagService.Domain.Words;

/// <summary>How a phrase of a table was recognised in text, from best to worst.</summary>
public enum MatchQuality
{
    /// <summary>Letter by letter, after folding.</summary>
    Exact,

    /// <summary>Another ending: plural, case.</summary>
    Inflected,

    /// <summary>Written in two words where the table has one.</summary>
    Joined,

    /// <summary>As the last part of a compound word (German and its relatives).</summary>
    Compound,

    /// <summary>One letter wrong, missing, too many or swapped, in a word of six letters or more.</summary>
    Misspelt,
}

/// <summary>One phrase of a table found in a text.</summary>
/// <param name="Phrase">Number of the phrase in its index.</param>
/// <param name="Start">First word.</param>
/// <param name="Count">Number of words.</param>
/// <param name="Part">Part of equal weight it stands in.</param>
/// <param name="Clause">Clause it stands in.</param>
/// <param name="Quality">How it was recognised.</param>
internal readonly record struct PhraseHit(
    ushort Phrase, byte Start, byte Count, byte Part, byte Clause, MatchQuality Quality)
{
    public int End => Start + Count;

    /// <summary>Share of right recognitions to expect: planning values (a plural is as good as the word itself).</summary>
    public static double Trust(MatchQuality quality) => quality switch
    {
        MatchQuality.Exact or MatchQuality.Inflected => 1,
        MatchQuality.Joined => 0.97,
        MatchQuality.Compound => 0.92,
        _ => 0.8,
    };
}
