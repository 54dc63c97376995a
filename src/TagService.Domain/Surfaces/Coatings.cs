using TagService.Domain.Reference;
using TagService.Domain.Words;

namespace TagService.Domain.Surfaces;

/// <summary>The coatings and states of surfaces that decide how adhesives hold.</summary>
public static class Coatings
{
    /// <summary>All rows, by id.</summary>
    public static ReferenceTable<Coating> Table { get; } = new("coatings.data.json", c => c.Id);

    /// <summary>Bare and clean.</summary>
    public static Coating Bare { get; } = Table["bare"];

    private static readonly SynonymTable<Coating> Synonyms = new(Table, c => c.Id, c => c.Name, c => c.Synonyms);

    /// <summary>The coating that a register's own words mean, in any of the table's languages; null if none is recognised.</summary>
    /// <param name="text">An id, a name or free words such as "pulverbeschichtet RAL 7035".</param>
    public static Coating? Find(string? text) => Synonyms.Find(text);

    /// <summary>Names that look most like words that <see cref="Find"/> did not recognise.</summary>
    /// <param name="text">The words.</param>
    /// <param name="count">How many, at least 1.</param>
    public static IReadOnlyList<string> Nearest(string text, int count) => Synonyms.Nearest(text, count);
}
