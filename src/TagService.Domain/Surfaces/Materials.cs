using TagService.Domain.Reference;
using TagService.Domain.Words;

namespace TagService.Domain.Surfaces;

/// <summary>The materials that tags meet.</summary>
public static class Materials
{
    /// <summary>All rows, by id.</summary>
    public static ReferenceTable<Material> Table { get; } = new("materials.data.json", m => m.Id);

    /// <summary>Air: nothing behind a wall, nothing inside.</summary>
    public static Material Air { get; } = Table["air"];

    private static readonly SynonymTable<Material> Synonyms = new(Table, m => m.Id, m => m.Name, m => m.Synonyms);

    /// <summary>The material that a register's own words mean, in any of the table's languages; null if none is recognised.</summary>
    /// <param name="text">An id, a name or free words such as "Edelstahl 1.4301".</param>
    public static Material? Find(string? text) => Synonyms.Find(text);

    /// <summary>Names that look most like words that <see cref="Find"/> did not recognise.</summary>
    /// <param name="text">The words.</param>
    /// <param name="count">How many, at least 1.</param>
    public static IReadOnlyList<string> Nearest(string text, int count) => Synonyms.Nearest(text, count);
}
