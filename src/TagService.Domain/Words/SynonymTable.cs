using TagService.Domain.Reference;

namespace TagService.Domain.Words;

/// <summary>Looks rows of a reference table up by their id, name or synonyms as people write them.</summary>
/// <typeparam name="T">The row's record.</typeparam>
internal sealed class SynonymTable<T>
    where T : class
{
    private const int MostWhole = 64;
    private const int MostCompared = 24;

    private readonly ReferenceTable<T> _table;
    private readonly PhraseIndex _index;
    private readonly Func<T, string> _name;
    private readonly (string Word, int Row)[] _words;
    private readonly Dictionary<string, T> _whole = new(StringComparer.Ordinal);

    public SynonymTable(
        ReferenceTable<T> table, Func<T, string> id, Func<T, string> name, Func<T, IReadOnlyList<string>> synonyms)
    {
        _table = table;
        _name = name;
        // Every list mixes languages; any word may be the end of a compound (Trinkwasser, Edelstahlblech).
        var words = table.All.SelectMany((row, i) => synonyms(row).Prepend(name(row)).Prepend(id(row)).Select(s => (s, i))).ToArray();
        _index = new(words.Select(w => (w.s, w.i, Languages.Any)));
        // Whole texts first: "ohne" or "sans" is an answer although such a word inside a phrase is not.
        _words = [.. words.Select(w => (TextFold.Fold(w.s), w.i))];
        foreach (var (word, row) in _words)
            _whole.TryAdd(word, table.All[row]);
    }

    /// <summary>The row meant, or null. The longest phrase found decides; among equals the better recognised, then the first.</summary>
    public T? Find(string? text)
    {
        if (string.IsNullOrWhiteSpace(text))
            return null;
        if (_table.Find(text) is { } byId)
            return byId;
        Span<char> folded = stackalloc char[MostWhole];
        folded = folded[..TextFold.Fold(text, folded)].Trim();
        if (_whole.GetAlternateLookup<ReadOnlySpan<char>>().TryGetValue(folded, out var whole))
            return whole;
        Span<PhraseHit> hits = stackalloc PhraseHit[16];
        hits = hits[.._index.Find(text, hits)];
        if (hits.Length == 0)
            return null;
        var best = hits[0];
        foreach (var hit in hits[1..])
        {
            if (hit.Count > best.Count || (hit.Count == best.Count && hit.Quality < best.Quality))
                best = hit;
        }

        return _table.All[_index[best.Phrase].Rows[0]];
    }

    /// <summary>Names of the rows whose words look most like the text; its first 24 folded characters count.</summary>
    public IReadOnlyList<string> Nearest(string text, int count)
    {
        Span<char> buffer = stackalloc char[MostCompared + 2];
        ReadOnlySpan<char> folded = buffer[..TextFold.Fold(text.AsSpan(0, Math.Min(text.Length, MostCompared)), buffer)];
        Span<int> least = stackalloc int[_table.All.Count];
        least.Fill(int.MaxValue);
        foreach (var (word, row) in _words)
        {
            // The difference of the lengths is the least that the distance can be.
            if (Math.Abs(word.Length - folded.Length) < least[row])
                least[row] = Math.Min(least[row], EditDistance.Between(folded, word));
        }

        var names = new string[Math.Min(count, least.Length)];
        for (var n = 0; n < names.Length; n++)
        {
            var nearest = 0;
            for (var row = 1; row < least.Length; row++)
            {
                if (least[row] < least[nearest])
                    nearest = row;
            }

            names[n] = _name(_table.All[nearest]);
            least[nearest] = int.MaxValue;
        }

        return names;
    }
}
