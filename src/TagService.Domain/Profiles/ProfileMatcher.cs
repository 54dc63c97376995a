using TagService.Domain.Recommendations;
using TagService.Domain.Words;

namespace TagService.Domain.Profiles;

/// <summary>
/// Finds the profile a record speaks of, in its own words. The rule behind <see cref="ProfileMatch.Confidence"/>:
/// <list type="bullet">
/// <item>The category equals, letter by letter, the id of a profile that is not broad: 1.</item>
/// <item>A word of the category is right 95 times in 100, of the description 85, of a field about type or model 75,
/// of the maker's name 50 (planning values); times 0.97 for a word written as two, 0.92 for the end of a compound,
/// 0.8 for a spelling mistake. Plurals count as the word itself.</item>
/// <item>The head of the first clause names the thing (last in English or German, first in Romance languages and
/// Polish; where the words share no language, the longest phrase, then the first) and carries 0.8 of that weight when
/// other profiles' words stand beside it. Parts joined by a slash, "and"
/// or an arrow are separate witnesses of equal weight.</item>
/// <item>A word that several profiles share is divided among them.</item>
/// <item>Fields are independent witnesses: the chances of each profile are multiplied and brought to a sum of 1
/// (naive Bayes with equal priors), at most 0.99.</item>
/// <item>Below 0.3 it is not known: the answer is the unknown asset with
/// confidence 0 and the candidates as alternatives.</item>
/// <item>A broad profile (vehicle, furniture) counts only when no specific one was found.</item>
/// </list>
/// Deterministic; at most 512 characters of each field and 16 further fields are looked at. Tested in
/// ProfileMatcherTests on invented register texts.
/// </summary>
public static class ProfileMatcher
{
    private const double CategoryWeight = 0.95;
    private const double DescriptionWeight = 0.85;
    private const double ThingWeight = 0.75;
    private const double MakerWeight = 0.5;
    private const int MostAttributes = 16;
    private const int MostHits = 64;

    private static readonly PhraseIndex Index = new(AssetProfiles.Table.All.SelectMany(Entries));

    private static readonly bool[] AllBroad =
        [.. Index.Phrases.Select(p => p.Rows.TrueForAll(r => AssetProfiles.Table.All[r].Broad))];

    internal static PhraseIndex Phrases => Index;

    /// <summary>Understands a record; the rule stands above.</summary>
    /// <param name="record">Any record.</param>
    public static ProfileMatch Match(AssetRecord record)
    {
        if (AssetProfiles.Table.Find(record.Category) is { Broad: false } named && string.Equals(named.Id, record.Category, StringComparison.Ordinal))
            return new(named, 1, [named.Id], []);
        Span<PhraseHit> hits = stackalloc PhraseHit[MostHits];
        Span<ProfileWitness> witnesses = stackalloc ProfileWitness[MostHits];
        var gathered = new ProfileEvidence(hits, witnesses);
        gathered.Add(record.Category, CategoryWeight);
        gathered.Add(record.Description, DescriptionWeight);
        AddAttributes(ref gathered, record.Attributes);
        return gathered.Count == 0 ? ProfileRanking.Nothing : ProfileRanking.Of(gathered.Hits, gathered.Witnesses);
    }

    internal static bool IsBroad(int phrase) => AllBroad[phrase];

    /// <summary>The further fields that count, in the order in which they are looked at.</summary>
    internal static IEnumerable<(AttributeMeaning Meaning, string Value)> AttributesRead(IReadOnlyDictionary<string, string> attributes) => attributes
        // Ordered by name, so that the answer does not depend on how a caller's dictionary is laid out.
        .OrderBy(a => a.Key, StringComparer.Ordinal)
        .Take(MostAttributes)
        .Select(a => (Meaning: AttributeKey.MeaningOf(a.Key), a.Value))
        .Where(a => a.Meaning is AttributeMeaning.Thing or AttributeMeaning.Maker);

    private static void AddAttributes(ref ProfileEvidence gathered, IReadOnlyDictionary<string, string> attributes)
    {
        if (attributes.Count == 0)
            return;
        foreach (var (meaning, value) in AttributesRead(attributes))
            gathered.Add(value, meaning == AttributeMeaning.Thing ? ThingWeight : MakerWeight);
    }

    private static IEnumerable<(string, int, Languages)> Entries(AssetProfile profile, int row) =>
        ReferenceEquals(profile, AssetProfiles.Unknown) ? [] : profile.Words
            .SelectMany(w => w.Value.Select(word => (word, row, LanguageOf(w.Key))))
            .Append((profile.Id.Replace('-', ' '), row, Languages.English))
            .Append((profile.Name, row, Languages.English));

    private static Languages LanguageOf(string code) => code switch
    {
        "en" => Languages.English,
        "de" => Languages.German,
        "nl" => Languages.Dutch,
        "sv" or "da" or "nb" => Languages.Nordic,
        "fr" => Languages.French,
        "es" => Languages.Spanish,
        "it" => Languages.Italian,
        "pt" => Languages.Portuguese,
        "pl" => Languages.Polish,
        _ => Languages.None,
    };
}
