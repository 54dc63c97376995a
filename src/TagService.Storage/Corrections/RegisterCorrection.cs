namespace TagService.Storage.Corrections;

/// <summary>What a register should be told about one asset.</summary>
/// <param name="AssetId">The asset.</param>
/// <param name="Source">Name of its register source, or push.</param>
/// <param name="Kind">What is the matter.</param>
/// <param name="RegisterTag">The column as the register writes it.</param>
/// <param name="RegisterTagKey">The identity that it names.</param>
/// <param name="Since">When the asset or the attachments named were last changed.</param>
/// <param name="Attachments">Those that are open on the asset, that with the tag named which ended last, or that with the tag named on another asset.</param>
public sealed record RegisterCorrection(
    string AssetId, string Source, CorrectionKind Kind, string? RegisterTag, string? RegisterTagKey, DateTimeOffset Since, IReadOnlyList<CorrectionAttachment> Attachments);

/// <summary>An attachment that a correction rests on.</summary>
/// <param name="Id">Its id.</param>
/// <param name="AssetId">The asset it is on.</param>
/// <param name="Identity">The tag: canonical text of its identity.</param>
/// <param name="EpcHex">Its EPC field, where that was ever seen.</param>
/// <param name="EndReason">Why it ended; null: it is open.</param>
/// <param name="ChangedAt">When it was recorded, ended or corrected last.</param>
public sealed record CorrectionAttachment(Guid Id, string AssetId, string Identity, string? EpcHex, string? EndReason, DateTimeOffset ChangedAt);

/// <summary>Which corrections are wanted.</summary>
public sealed record CorrectionFilter
{
    /// <summary>Sources that are told what is on their assets.</summary>
    public required IReadOnlyCollection<string> Told { get; init; }

    /// <summary>Sources whose tag column is followed: they are told only what could not be followed.</summary>
    public required IReadOnlyCollection<string> Followed { get; init; }

    /// <summary>Only corrections of this kind.</summary>
    public CorrectionKind? Kind { get; init; }

    /// <summary>Only where the asset, or an attachment of it or of the tag named, changed at or after this time.</summary>
    public DateTimeOffset? Since { get; init; }
}
