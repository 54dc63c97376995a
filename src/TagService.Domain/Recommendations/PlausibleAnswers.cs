using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Text.Json.Serialization;
using TagService.Domain.Profiles;
using TagService.Domain.Reference;

namespace TagService.Domain.Recommendations;

/// <summary>A question about one field with its plausible answers.</summary>
/// <param name="Field">JSON pointer of the field.</param>
/// <param name="Text">The question as a person would ask it.</param>
/// <param name="Answers">Plausible answers; a profile's own alternatives come first.</param>
/// <param name="Source">Where the answers and shares come from.</param>
public sealed record PlausibleAnswers(
    string Field, string Text, IReadOnlyList<PlausibleAnswer> Answers, string Source)
{
    /// <summary>
    /// The answers are the profile's own alternatives and their shares are among all such assets; otherwise they are general
    /// and hold only as far as the assumption does not.
    /// </summary>
    [JsonIgnore]
    public bool OfProfile { get; init; }

    /// <summary>The questions of the product, one a field.</summary>
    public static ReferenceTable<PlausibleAnswers> Table { get; } = new("questions.data.json", q => q.Field);

    /// <summary>Question about a field, with the profile's alternatives in place of the general ones where it has any.</summary>
    /// <param name="field">JSON pointer.</param>
    /// <param name="profile">Profile of the asset.</param>
    /// <returns>Null when nobody asks about that field.</returns>
    public static PlausibleAnswers? For(string field, AssetProfile profile) => Of(profile).GetValueOrDefault(field);

    /// <summary>All questions about assets of a profile, by field.</summary>
    internal static FrozenDictionary<string, PlausibleAnswers> Of(AssetProfile profile) =>
        ByProfile.GetOrAdd(profile.Id, static (_, p) => Table.All.ToFrozenDictionary(q => q.Field, q => Make(q, p)), profile);

    private static readonly ConcurrentDictionary<string, FrozenDictionary<string, PlausibleAnswers>> ByProfile = new();

    private static PlausibleAnswers Make(PlausibleAnswers general, AssetProfile profile)
    {
        var own = profile.Alternatives
            .Where(a => a.Field == general.Field)
            .Select(a => new PlausibleAnswer(FieldText.Of(a.Field, a.Values), a.Share, a.Values))
            .ToArray();
        return own.Length == 0 ? general : general with { Answers = own, OfProfile = true };
    }
}

/// <summary>One plausible answer.</summary>
/// <param name="Text">The answer in words.</param>
/// <param name="Share">How likely, 0 to 1.</param>
/// <param name="Values">The record parts that carry it.</param>
public sealed record PlausibleAnswer(string Text, double Share, ProfileValues Values);
