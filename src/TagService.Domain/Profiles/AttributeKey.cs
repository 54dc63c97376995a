using TagService.Domain.Reference;
using TagService.Domain.Words;

namespace TagService.Domain.Profiles;

/// <summary>What a register's own field speaks of.</summary>
public enum AttributeMeaning
{
    /// <summary>Nothing that helps to tell what the asset is.</summary>
    Other,

    /// <summary>The thing itself: type, model, designation.</summary>
    Thing,

    /// <summary>Its maker.</summary>
    Maker,

    /// <summary>A place or a person: a pump is not an office because it stands in one.</summary>
    Place,
}

/// <summary>Name fragments of register fields with one meaning.</summary>
/// <param name="Meaning">What such a field speaks of.</param>
/// <param name="Fragments">Fragments of the field's name, several languages.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record AttributeKey(AttributeMeaning Meaning, IReadOnlyList<string> Fragments, string Source)
{
    /// <summary>All rows, in the order in which they are tried.</summary>
    public static ReferenceTable<AttributeKey> Table { get; } = new("attribute-keys.data.json", k => k.Meaning.ToString());

    private const int ShortFragment = 4;

    private static readonly (AttributeMeaning Meaning, string Fragment)[] Folded =
        [.. Table.All.SelectMany(k => k.Fragments.Select(f => (k.Meaning, TextFold.Fold(f))))];

    /// <summary>What a field of this name speaks of; the first fragment found decides.</summary>
    /// <param name="name">Name of the register's field.</param>
    public static AttributeMeaning MeaningOf(ReadOnlySpan<char> name)
    {
        Span<char> buffer = stackalloc char[64];
        ReadOnlySpan<char> folded = buffer[..TextFold.Fold(name, buffer)];
        foreach (var (meaning, fragment) in Folded)
        {
            // Short fragments ("art", "typ", "ort") only as whole names or ends: "part" is no "art".
            var found = fragment.Length < ShortFragment
                ? folded.SequenceEqual(fragment) || folded.EndsWith(" " + fragment) || folded.StartsWith(fragment + " ")
                : folded.Contains(fragment, StringComparison.Ordinal);
            if (found)
                return meaning;
        }

        return AttributeMeaning.Other;
    }
}
