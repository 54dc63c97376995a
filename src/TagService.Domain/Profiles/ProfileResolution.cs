using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>
/// Fills the gaps of a record: record before profile before setting before the product's defaults. Contradictions
/// within the record are not settled here, see <see cref="RecordContradictions"/>; assumed values always give way to
/// given ones. Pure and deterministic; texts are written only when asked for.
/// </summary>
public static class ProfileResolution
{
    /// <summary>Understands the record and fills its gaps.</summary>
    /// <param name="record">Any record, however thin.</param>
    public static Resolution Resolve(AssetRecord record) => Resolve(record, ProfileMatcher.Match(record));

    /// <summary>Fills the gaps from a profile already found, for example when one field of the same record is varied.</summary>
    /// <param name="record">Any record, however thin.</param>
    /// <param name="match">How it was understood.</param>
    public static Resolution Resolve(AssetRecord record, ProfileMatch match)
    {
        var gaps = new Gaps();
        var parts = AssetParts.Resolve(record, match.Profile, gaps);
        return new(parts.ToAsset(match.Profile), match, parts, gaps);
    }

    /// <summary>
    /// The asset of a record already resolved if its gaps were filled with <paramref name="values"/> first: the same as resolving the
    /// filled record (tested), at a fraction of the work.
    /// </summary>
    internal static ResolvedAsset Vary(AssetRecord record, Resolution resolution, ProfileValues values)
    {
        var profile = resolution.Match.Profile;
        return resolution.Parts.Vary(record, profile, values).ToAsset(profile);
    }
}
