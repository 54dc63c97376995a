using System.Collections.Frozen;

namespace TagService.Domain.Suitability;

/// <summary>One cell of the compatibility table with the words a finding needs.</summary>
internal sealed record ChemicalContact(MaterialResistance Material, ChemicalFamily Chemical, ChemicalRating Rating)
{
    /// <summary>For example <c>acrylic adhesive (attacked)</c>.</summary>
    public string Words { get; } = $"{Material.Name} ({WordOf(Rating)})";

    private static string WordOf(ChemicalRating rating) => rating switch
    {
        ChemicalRating.Resists => "resists",
        ChemicalRating.Limited => "short contact only",
        _ => "attacked",
    };
}

/// <summary>What the chemical families do to one material.</summary>
internal sealed class MaterialContacts
{
    /// <summary>The bit of chemicals that are no family: nobody knows what they do.</summary>
    public const int UnknownPlace = 63;

    private readonly FrozenDictionary<string, ChemicalContact> _byFamily;

    public MaterialContacts(IEnumerable<ChemicalContact> contacts)
    {
        _byFamily = contacts.ToFrozenDictionary(c => c.Chemical.Id, StringComparer.Ordinal);
        Resisted = SetOf(ChemicalRating.Resists);
        Attacking = SetOf(ChemicalRating.Attacked);
    }

    /// <summary>A material outside the table.</summary>
    public static MaterialContacts None { get; } = new([]);

    /// <summary>The families it resists, as <see cref="Chemicals.SetOf"/> makes sets.</summary>
    public ulong Resisted { get; }

    /// <summary>The families that attack it.</summary>
    public ulong Attacking { get; }

    /// <summary>The contact with one family, or null where the table is silent.</summary>
    public ChemicalContact? Of(string chemical) => _byFamily.GetValueOrDefault(chemical);

    private ulong SetOf(ChemicalRating rating) =>
        Chemicals.SetOf([.. _byFamily.Values.Where(c => c.Rating == rating).Select(c => c.Chemical.Id)]);
}
