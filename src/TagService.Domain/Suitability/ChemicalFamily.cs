namespace TagService.Domain.Suitability;

/// <summary>A family of chemicals that act alike on faces and fixings.</summary>
/// <param name="Id">Stable kebab-case id.</param>
/// <param name="Name">Plain name.</param>
/// <param name="Synonyms">Other words for it, several languages, lower case.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="Caution">Id of the caution for people who work on assets that meet it, if there is one.</param>
public sealed record ChemicalFamily(
    string Id, string Name, IReadOnlyList<string> Synonyms, string Source, string? Caution = null);

/// <summary>How one face or fixing material bears the chemical families.</summary>
/// <param name="Material">Key used by tag classes and attachment methods.</param>
/// <param name="Name">Plain name.</param>
/// <param name="Ratings">Rating by id of the chemical family.</param>
/// <param name="Source">Where the ratings come from.</param>
public sealed record MaterialResistance(
    string Material, string Name, IReadOnlyDictionary<string, ChemicalRating> Ratings, string Source);

/// <summary>How a material bears a chemical at room temperature.</summary>
public enum ChemicalRating
{
    /// <summary>Bears it for years.</summary>
    Resists,

    /// <summary>Bears splashes or short contact.</summary>
    Limited,

    /// <summary>Swells, cracks, dissolves or corrodes.</summary>
    Attacked,
}
