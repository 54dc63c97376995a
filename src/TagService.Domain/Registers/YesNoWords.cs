using System.Collections.Frozen;
using TagService.Domain.Reference;
using TagService.Domain.Words;

namespace TagService.Domain.Registers;

/// <summary>Words for yes or for no.</summary>
/// <param name="Value"><c>yes</c> or <c>no</c>.</param>
/// <param name="Words">The words, several languages.</param>
/// <param name="Source">Where they come from.</param>
public sealed record YesNoWords(string Value, IReadOnlyList<string> Words, string Source)
{
    /// <summary>Both rows.</summary>
    public static ReferenceTable<YesNoWords> Table { get; } = new("yes-no-words.data.json", r => r.Value);

    private static readonly FrozenDictionary<string, bool> ByWord = Index();

    /// <summary>Yes, no, or null when the text is neither word in any of the languages.</summary>
    /// <param name="text">A whole cell.</param>
    public static bool? Read(string text)
    {
        var trimmed = text.Trim();
        if (ByWord.TryGetValue(trimmed, out var value))
            return value;
        return ByWord.TryGetValue(TextFold.Fold(trimmed), out value) ? value : null;
    }

    private static FrozenDictionary<string, bool> Index()
    {
        var byWord = new Dictionary<string, bool>(StringComparer.Ordinal);
        foreach (var row in Table.All)
        {
            foreach (var word in row.Words)
            {
                // Marks without letters fold to nothing and stand for themselves.
                var folded = TextFold.Fold(word);
                byWord[folded.Length > 0 ? folded : word] = row.Value == "yes";
            }
        }

        return byWord.ToFrozenDictionary(StringComparer.Ordinal);
    }
}
