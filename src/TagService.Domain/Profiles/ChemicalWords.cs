using TagService.Domain.Reference;
using TagService.Domain.Words;

namespace TagService.Domain.Profiles;

/// <summary>A family of chemicals and the words that registers use for it.</summary>
/// <param name="Id">Stable kebab-case id of the family.</param>
/// <param name="Words">Words, several languages, lower case.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record ChemicalWords(string Id, IReadOnlyList<string> Words, string Source)
{
    /// <summary>All families, by id.</summary>
    public static ReferenceTable<ChemicalWords> Table { get; } = new("chemical-words.data.json", c => c.Id);

    private static readonly SynonymTable<ChemicalWords> Synonyms = new(Table, c => c.Id, c => c.Id, c => c.Words);

    /// <summary>Id of the family meant by a register's words, or null.</summary>
    /// <param name="text">An id or free words such as "Bremsenreiniger".</param>
    public static string? FamilyOf(string? text) => Synonyms.Find(text)?.Id;

    /// <summary>Ids that look most like words that <see cref="FamilyOf"/> did not recognise.</summary>
    /// <param name="text">The words.</param>
    /// <param name="count">How many, at least 1.</param>
    public static IReadOnlyList<string> Nearest(string text, int count) => Synonyms.Nearest(text, count);
}
