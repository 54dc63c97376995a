using System.Collections.Frozen;
using System.Text;
using TagService.Domain.Reference;

namespace TagService.Domain.Suitability;

/// <summary>Chemical families and the words for them, and what they do to faces and fixings.</summary>
public static class Chemicals
{
    private static readonly FrozenDictionary<string, ChemicalFamily> s_byWord;
    private static readonly FrozenDictionary<string, int> s_places;
    private static readonly FrozenDictionary<string, MaterialContacts> s_contacts;

    static Chemicals()
    {
        Families = new("chemicals.data.json", c => c.Id);
        Compatibility = new("chemical-compatibility.data.json", m => m.Material);
        var words = new Dictionary<string, ChemicalFamily>(StringComparer.Ordinal);
        foreach (var family in Families.All)
        {
            foreach (var word in family.Synonyms.Append(family.Id).Append(family.Name))
                words[Fold(word)] = family;
        }

        s_byWord = words.ToFrozenDictionary(StringComparer.Ordinal);
        s_places = Families.All.Index().ToFrozenDictionary(f => f.Item.Id, f => f.Index, StringComparer.Ordinal);
        s_contacts = Compatibility.All.ToFrozenDictionary(m => m.Material, m => new MaterialContacts(
            m.Ratings.Select(r => new ChemicalContact(m, Families[r.Key], r.Value))));
    }

    /// <summary>The families.</summary>
    public static ReferenceTable<ChemicalFamily> Families { get; }

    /// <summary>The compatibility table, by material.</summary>
    public static ReferenceTable<MaterialResistance> Compatibility { get; }

    /// <summary>
    /// The family a register's word or phrase points to, or null: the whole phrase first, else the longest run of its
    /// words that is known. Case, accents and hyphens do not matter.
    /// </summary>
    /// <param name="words">For example <c>Diesel</c>, <c>salt-fog</c>, <c>traces of engine oil</c>.</param>
    public static ChemicalFamily? Find(string words)
    {
        var folded = Fold(words);
        if (s_byWord.TryGetValue(folded, out var family))
            return family;
        var parts = folded.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        for (var length = Math.Min(4, parts.Length - 1); length > 0; length--)
        {
            for (var start = 0; start + length <= parts.Length; start++)
            {
                if (s_byWord.TryGetValue(string.Join(' ', parts, start, length), out family))
                    return family;
            }
        }

        return null;
    }

    /// <summary>What a chemical family does to a face or fixing material, or null where the table is silent.</summary>
    /// <param name="material">Key of the compatibility table.</param>
    /// <param name="chemical">Id of a family.</param>
    public static ChemicalRating? RatingOf(string material, string chemical) =>
        ContactsOf(material).Of(chemical)?.Rating;

    /// <summary>All contacts of a material; none where the table is silent.</summary>
    internal static MaterialContacts ContactsOf(string material) =>
        s_contacts.GetValueOrDefault(material, MaterialContacts.None);

    /// <summary>Families as one set of bits; one bit of their own for ids that are none.</summary>
    internal static ulong SetOf(IReadOnlyList<string> chemicals)
    {
        ulong set = 0;
        for (var i = 0; i < chemicals.Count; i++)
            set |= 1UL << (s_places.TryGetValue(chemicals[i], out var place) ? place : MaterialContacts.UnknownPlace);
        return set;
    }

    /// <summary>Lower case, without the accents of western and central European languages, words parted by one blank.</summary>
    internal static string Fold(string words)
    {
        var folded = new StringBuilder(words.Length);
        foreach (var c in words)
        {
            var lower = char.ToLowerInvariant(c);
            if (char.IsLetterOrDigit(lower))
                folded.Append(WithoutAccent(lower));
            else if (folded.Length > 0 && folded[^1] != ' ')
                folded.Append(' ');
        }

        return folded.ToString().TrimEnd();
    }

    private static char WithoutAccent(char c) => c switch
    {
        'ä' or 'à' or 'á' or 'â' or 'ã' or 'å' or 'ą' => 'a',
        'ö' or 'ò' or 'ó' or 'ô' or 'õ' or 'ø' => 'o',
        'ü' or 'ù' or 'ú' or 'û' => 'u',
        'é' or 'è' or 'ê' or 'ë' or 'ę' => 'e',
        'í' or 'ì' or 'î' or 'ï' => 'i',
        'ç' or 'ć' => 'c',
        'ñ' or 'ń' => 'n',
        'ł' => 'l',
        'ś' => 's',
        'ź' or 'ż' => 'z',
        _ => c,
    };
}
