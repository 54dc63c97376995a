using System.Collections.Frozen;
using TagService.Domain.Radio;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Recommendations;

/// <summary>A catalogue laid out for judging: every class with each of its fixings as one pair, by index.</summary>
internal sealed class CompiledCatalogue
{
    public CompiledCatalogue(IReadOnlyList<TagClass> classes)
    {
        Classes = [.. classes];
        Methods = [.. classes.SelectMany(c => c.AttachmentMethods).Distinct().Select(id => AttachmentMethods.Table[id])];
        Pairs = [.. classes.SelectMany((c, i) => c.AttachmentMethods.Select(id =>
            new Pair(i, Array.FindIndex(Methods, m => m.Id == id))))];
        FirstPair = new int[Classes.Length + 1];
        for (var i = Pairs.Length - 1; i >= 0; i--)
            FirstPair[Pairs[i].Class] = i;
        FirstPair[^1] = Pairs.Length;
        SizeBoundFindings = SizeBoundCheck.Breaking(classes).GroupBy(f => f.TagClassId, StringComparer.Ordinal)
            .ToFrozenDictionary(g => g.Key, g => g.ToArray(), StringComparer.Ordinal);
    }

    /// <summary>One class with one of its fixings, as indices.</summary>
    internal readonly record struct Pair(int Class, int Method);

    public TagClass[] Classes { get; }

    /// <summary>Index of a class of this catalogue: the same object, not one with the same values.</summary>
    public int IndexOf(TagClass tagClass)
    {
        var index = 0;
        while (!ReferenceEquals(Classes[index], tagClass))
            index++;
        return index;
    }

    public AttachmentMethod[] Methods { get; }

    /// <summary>All pairs, those of one class side by side.</summary>
    public Pair[] Pairs { get; }

    /// <summary>Index of the first pair of each class, and the number of pairs at the end.</summary>
    public int[] FirstPair { get; }

    /// <summary>Classes that claim more than their size allows, by id.</summary>
    public FrozenDictionary<string, SizeBoundFinding[]> SizeBoundFindings { get; }
}
