using System.Collections.Frozen;

namespace TagService.Domain.Words;

/// <summary>
/// Words within one spelling mistake: a letter wrong, missing, too many, or two neighbours swapped. Every word is kept
/// under all forms with one letter taken out, so that a look-up tries as many forms as the word has letters
/// (symmetric deletion).
/// </summary>
internal sealed class MisspellingIndex
{
    /// <summary>Shorter words have too many neighbours that are words of their own, except by a swap ("pmup").</summary>
    private const int ShortestOfAnyMistake = 6;

    /// <summary>Shorter words are not corrected at all.</summary>
    private const int Shortest = 4;

    private const int Longest = 40;

    private readonly FrozenDictionary<string, (string Word, int Stem)[]>.AlternateLookup<ReadOnlySpan<char>> _byForm;

    public MisspellingIndex(IEnumerable<(string Word, int Stem)> words) =>
        _byForm = words
            .Where(w => w.Word.Length is >= Shortest and <= Longest)
            .SelectMany(w => Forms(w.Word).Distinct().Select(form => (form, w)))
            .GroupBy(p => p.form, p => p.w)
            .ToFrozenDictionary(g => g.Key, g => g.ToArray(), StringComparer.Ordinal)
            .GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>Stem of the word meant, or -1. First letters must agree: people seldom mistake those.</summary>
    public int Find(ReadOnlySpan<char> word)
    {
        if (word.Length is < Shortest or > Longest || word.ContainsAnyInRange('0', '9'))
            return -1;
        var found = Look(word, word);
        Span<char> form = stackalloc char[Longest];
        for (var i = 1; found < 0 && i < word.Length; i++)
        {
            word[..i].CopyTo(form);
            word[(i + 1)..].CopyTo(form[i..]);
            found = Look(form[..(word.Length - 1)], word);
        }

        return found;
    }

    private int Look(ReadOnlySpan<char> form, ReadOnlySpan<char> word)
    {
        if (!_byForm.TryGetValue(form, out var candidates))
            return -1;
        foreach (var (candidate, stem) in candidates)
        {
            if (candidate[0] == word[0] && Fits(candidate, word))
                return stem;
        }

        return -1;
    }

    private static bool Fits(string candidate, ReadOnlySpan<char> word) =>
        Math.Min(candidate.Length, word.Length) >= ShortestOfAnyMistake
            ? EditDistance.IsAtMostOne(candidate, word)
            : EditDistance.IsOneSwap(candidate, word);

    private static IEnumerable<string> Forms(string word) =>
        Enumerable.Range(1, word.Length - 1).Select(i => word.Remove(i, 1)).Append(word);
}
