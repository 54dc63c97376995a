using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>A record with every gap filled, and what was filled from where.</summary>
public sealed class Resolution
{
    private readonly Gaps _gaps;
    private IReadOnlyList<Assumption>? _assumptions;
    private IReadOnlyList<Notice>? _notices;

    internal Resolution(ResolvedAsset asset, ProfileMatch match, in AssetParts parts, Gaps gaps)
    {
        Asset = asset;
        Match = match;
        Parts = parts;
        _gaps = gaps;
    }

    /// <summary>The asset as rules and radio calculation see it.</summary>
    public ResolvedAsset Asset { get; }

    /// <summary>How the record was understood.</summary>
    public ProfileMatch Match { get; }

    internal AssetParts Parts { get; }

    /// <summary>
    /// Every field that the record does not give, in the record's order; written when first asked for.
    /// Confidence (planning rule): from the profile, the match's confidence times the share of such assets that are
    /// typical (1 less the shares of the field's alternatives), at least 0.1; from the setting, 0.7 when the record
    /// gives the setting, else 0.7 times the confidence of the assumed setting; from a default, its row's; derived, 0.7.
    /// </summary>
    public IReadOnlyList<Assumption> Assumptions => _assumptions ??= AssumptionTexts.Of(this, _gaps);

    /// <summary>Words that were not understood; written when first asked for.</summary>
    public IReadOnlyList<Notice> Notices => _notices ??= NoticeTexts.Of(_gaps);
}
