namespace TagService.Domain.Profiles;

/// <summary>How a record was understood.</summary>
/// <param name="Profile">The most likely profile; <see cref="AssetProfiles.Unknown"/> when nothing, or nothing certain enough, was recognised.</param>
/// <param name="Confidence">0 (nothing recognised) to 1 (the record names the profile's id); the rule stands at <see cref="ProfileMatcher"/>.</param>
/// <param name="MatchedWords">Words of the profile that the record contains.</param>
/// <param name="Alternatives">Other profiles that came close, most likely first.</param>
public sealed record ProfileMatch(
    AssetProfile Profile, double Confidence, IReadOnlyList<string> MatchedWords, IReadOnlyList<AssetProfile> Alternatives);
