using System.Collections.Frozen;

namespace TagService.Domain.Words;

/// <summary>
/// Finds the phrases of a table in free text: longest first, other endings, compound words, joined words, one
/// spelling mistake. Built once; looking up allocates nothing and looks at each word a bounded number of times.
/// </summary>
internal sealed class PhraseIndex
{
    private const int ShortestHead = 4;
    private const int ShortestModifier = 3;

    private readonly PhraseEntry[] _phrases;
    private readonly ushort[][] _byFirstStem;
    private readonly FrozenDictionary<string, int>.AlternateLookup<ReadOnlySpan<char>> _stems;
    private readonly FrozenDictionary<string, ushort>.AlternateLookup<ReadOnlySpan<char>> _heads;
    private readonly MisspellingIndex _misspellings;

    public PhraseIndex(IEnumerable<(string Phrase, int Row, Languages Languages)> entries)
    {
        var stems = new Dictionary<string, int>(StringComparer.Ordinal);
        var phrases = new Dictionary<string, PhraseEntry>(StringComparer.Ordinal);
        foreach (var (phrase, row, languages) in entries)
        {
            var words = WordsOf(phrase, out var spans);
            if (words.Length == 0)
                continue;
            var key = string.Join(' ', words);
            if (!phrases.TryGetValue(key, out var entry))
                phrases.Add(key, entry = new(phrase, words) { Stems = [.. words.Select(w => StemNumber(stems, w))] });
            entry.Languages |= languages;
            entry.Spans |= spans;
            if (!entry.Rows.Contains(row))
                entry.Rows.Add(row);
        }

        _phrases = [.. phrases.Values];
        _stems = stems.ToFrozenDictionary(StringComparer.Ordinal).GetAlternateLookup<ReadOnlySpan<char>>();
        _byFirstStem = ByFirstStem(_phrases, stems.Count);
        _heads = Heads(_phrases).GetAlternateLookup<ReadOnlySpan<char>>();
        _misspellings = new(_phrases.SelectMany(p => p.Words.Zip(p.Stems)).DistinctBy(p => p.First));
    }

    public IReadOnlyList<PhraseEntry> Phrases => _phrases;

    public PhraseEntry this[int phrase] => _phrases[phrase];

    /// <summary>Finds phrases in one text.</summary>
    /// <param name="text">Any text; the first 512 folded characters and 64 words count.</param>
    /// <param name="hits">Receives the hits that no longer hit covers, in text order.</param>
    /// <returns>Number of hits written.</returns>
    public int Find(ReadOnlySpan<char> text, Span<PhraseHit> hits)
    {
        Span<char> folded = stackalloc char[TextToken.MostCharacters];
        folded = folded[..TextFold.Fold(text, folded)];
        Span<TextToken> tokens = stackalloc TextToken[TextToken.Most];
        tokens = tokens[..TextToken.Split(folded, tokens)];
        Span<int> stems = stackalloc int[tokens.Length];
        Span<bool> misspelt = stackalloc bool[tokens.Length];
        misspelt.Clear();
        for (var i = 0; i < tokens.Length; i++)
            stems[i] = StemOf(tokens[i].Of(folded));

        var n = 0;
        for (var i = 0; i < tokens.Length && n < hits.Length; i++)
        {
            var before = n;
            n = Longest(folded, tokens, stems, misspelt, i, hits, n);
            if (n > before ? hits[before].Count > 1 : Covered(hits[..n], i))
                continue;
            n = Loose(folded, tokens, stems, misspelt, i, hits, before, n);
        }

        return n;
    }

    private int Loose(
        ReadOnlySpan<char> folded, ReadOnlySpan<TextToken> tokens, Span<int> stems, Span<bool> misspelt, int i,
        Span<PhraseHit> hits, int before, int n)
    {
        var word = tokens[i].Of(folded);
        var joined = i + 1 < tokens.Length && tokens[i].Clause == tokens[i + 1].Clause
            ? Joined(word, tokens[i + 1].Of(folded))
            : -1;
        if (joined >= 0)
            return Add(hits, before, new((ushort)joined, (byte)i, 2, tokens[i].Part, tokens[i].Clause, MatchQuality.Joined));
        if (n > before)
            return n;
        var head = HeadOf(word);
        if (head >= 0)
            return Add(hits, n, new((ushort)head, (byte)i, 1, tokens[i].Part, tokens[i].Clause, MatchQuality.Compound));
        if (stems[i] >= 0)
            return n;
        stems[i] = _misspellings.Find(word);
        misspelt[i] = stems[i] >= 0;
        return misspelt[i] ? Longest(folded, tokens, stems, misspelt, i, hits, n) : n;
    }

    private int Longest(
        ReadOnlySpan<char> folded, ReadOnlySpan<TextToken> tokens, ReadOnlySpan<int> stems, ReadOnlySpan<bool> misspelt,
        int i, Span<PhraseHit> hits, int n)
    {
        if (stems[i] < 0)
            return n;
        var best = -1;
        var bestExact = 0;
        foreach (var candidate in _byFirstStem[stems[i]])
        {
            var entry = _phrases[candidate];
            if (best >= 0 && entry.Stems.Length < _phrases[best].Stems.Length)
                break;
            if (!Follows(entry, tokens, stems, i))
                continue;
            var exact = ExactWords(entry, folded, tokens, i);
            if (best >= 0 && exact <= bestExact)
                continue;
            best = candidate;
            bestExact = exact;
        }

        if (best < 0)
            return n;
        var count = _phrases[best].Stems.Length;
        if (n > 0 && hits[n - 1].End >= i + count)
            return n;
        var quality = misspelt.Slice(i, count).Contains(true) ? MatchQuality.Misspelt
            : bestExact == count ? MatchQuality.Exact
            : MatchQuality.Inflected;
        return Add(hits, n, new((ushort)best, (byte)i, (byte)count, tokens[i].Part, tokens[i].Clause, quality));
    }

    private static bool Follows(PhraseEntry entry, ReadOnlySpan<TextToken> tokens, ReadOnlySpan<int> stems, int i)
    {
        if (i + entry.Stems.Length > tokens.Length)
            return false;
        if (!entry.Spans && tokens[i].Clause != tokens[i + entry.Stems.Length - 1].Clause)
            return false;
        return stems.Slice(i, entry.Stems.Length).SequenceEqual(entry.Stems);
    }

    private static int ExactWords(PhraseEntry entry, ReadOnlySpan<char> folded, ReadOnlySpan<TextToken> tokens, int i)
    {
        var exact = 0;
        for (var k = 0; k < entry.Words.Length; k++)
        {
            if (tokens[i + k].Of(folded).SequenceEqual(entry.Words[k]))
                exact++;
        }

        return exact;
    }

    private int StemOf(ReadOnlySpan<char> word) =>
        _stems.TryGetValue(word[..Stem.Length(word)], out var stem) ? stem : -1;

    private int Joined(ReadOnlySpan<char> first, ReadOnlySpan<char> second)
    {
        Span<char> both = stackalloc char[64];
        if (first.Length + second.Length > both.Length)
            return -1;
        first.CopyTo(both);
        second.CopyTo(both[first.Length..]);
        both = both[..(first.Length + second.Length)];
        var stem = StemOf(both);
        if (stem < 0)
            return -1;
        foreach (var candidate in _byFirstStem[stem])
        {
            if (_phrases[candidate].Stems.Length == 1)
                return candidate;
        }

        return -1;
    }

    private int HeadOf(ReadOnlySpan<char> word)
    {
        var stem = word[..Stem.Length(word)];
        for (var start = ShortestModifier; stem.Length - start >= ShortestHead - 1; start++)
        {
            // The stem of the compound's end is looked up, and its unstripped end for short heads such as "rohr".
            if (_heads.TryGetValue(stem[start..], out var phrase) || _heads.TryGetValue(word[start..], out phrase))
                return phrase;
        }

        return -1;
    }

    private static bool Covered(ReadOnlySpan<PhraseHit> hits, int i) => hits.Length > 0 && hits[^1].End > i;

    private static int Add(Span<PhraseHit> hits, int n, PhraseHit hit)
    {
        if (n < hits.Length)
            hits[n++] = hit;
        return n;
    }

    private static string[] WordsOf(string phrase, out bool spans)
    {
        var folded = TextFold.Fold(phrase);
        Span<TextToken> tokens = stackalloc TextToken[TextToken.Most];
        tokens = tokens[..TextToken.Split(folded, tokens)];
        spans = tokens.Length > 1 && tokens[^1].Clause != tokens[0].Clause;
        var words = new string[tokens.Length];
        for (var i = 0; i < words.Length; i++)
            words[i] = tokens[i].Of(folded).ToString();
        return words;
    }

    private static int StemNumber(Dictionary<string, int> stems, string word)
    {
        var stem = word[..Stem.Length(word)];
        if (!stems.TryGetValue(stem, out var number))
            stems.Add(stem, number = stems.Count);
        return number;
    }

    private static ushort[][] ByFirstStem(PhraseEntry[] phrases, int stems) =>
        [.. Enumerable.Range(0, stems).GroupJoin(
            Enumerable.Range(0, phrases.Length),
            stem => stem,
            p => phrases[p].Stems[0],
            (_, ps) => ps.OrderByDescending(p => phrases[p].Stems.Length).Select(p => (ushort)p).ToArray())];

    // Four letters of Dutch end too many words of other languages ("deur", "lift"); German has few such collisions.
    private static Languages CompoundingAt(string word) =>
        word.Length > ShortestHead ? Languages.Compounding : Languages.German;

    private static FrozenDictionary<string, ushort> Heads(PhraseEntry[] phrases)
    {
        var heads = new Dictionary<string, ushort>(StringComparer.Ordinal);
        for (var p = 0; p < phrases.Length; p++)
        {
            if (phrases[p].Words is not [{ Length: >= ShortestHead } word] || (phrases[p].Languages & CompoundingAt(word)) == 0)
                continue;
            heads.TryAdd(word, (ushort)p);
            heads.TryAdd(word[..Stem.Length(word)], (ushort)p);
        }

        return heads.ToFrozenDictionary(StringComparer.Ordinal);
    }
}
