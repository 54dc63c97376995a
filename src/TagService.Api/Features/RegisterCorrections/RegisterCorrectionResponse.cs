using TagService.Storage.Corrections;

namespace TagService.Api.Features.RegisterCorrections;

/// <summary>What a register should be told about one asset.</summary>
/// <param name="AssetId">The asset.</param>
/// <param name="Source">Name of its register source, or push for assets that the asset system pushes.</param>
/// <param name="Kind">What is the matter.</param>
/// <param name="Detail">The same in one sentence.</param>
/// <param name="RegisterTag">The register's tag column as it is written there; absent when it is empty.</param>
/// <param name="RegisterIdentity">The identity that the column names, in canonical form.</param>
/// <param name="Tags">Tags that are on the asset; the column is right if it names one of them.</param>
/// <param name="Since">When the asset or the attachments named were last changed.</param>
/// <param name="EndReason">For end: why the attachment of the tag named ended, an id of /v1/attachment-end-reasons.</param>
/// <param name="OtherAssetIds">For conflict: assets that the tag named is on.</param>
/// <param name="AttachmentIds">Attachments that this rests on; each is at /v1/attachments/{id}.</param>
public sealed record RegisterCorrectionResponse(
    string AssetId,
    string Source,
    CorrectionKind Kind,
    string Detail,
    string? RegisterTag,
    string? RegisterIdentity,
    IReadOnlyList<CorrectionTagResponse> Tags,
    DateTimeOffset Since,
    string? EndReason,
    IReadOnlyList<string> OtherAssetIds,
    IReadOnlyList<Guid> AttachmentIds);

/// <summary>A tag in the forms a register may keep.</summary>
/// <param name="Identity">Canonical form of its identity.</param>
/// <param name="EpcHex">Its EPC field, hexadecimal; absent while only other forms were seen.</param>
/// <param name="Uri">urn:epc:tag or urn:epc:id; absent where its EPC field is not known or has none.</param>
/// <param name="DigitalLink">Canonical GS1 Digital Link; absent for identities outside the GS1 keys.</param>
public sealed record CorrectionTagResponse(string Identity, string? EpcHex, string? Uri, string? DigitalLink);

/// <summary>One page of corrections in ordinal order of the assets. The Link header (RFC 8288) has the address of the next page.</summary>
/// <param name="Items">The corrections, one an asset.</param>
/// <param name="NextAfter">The value of after for the next page; absent on the last one.</param>
public sealed record RegisterCorrectionPageResponse(IReadOnlyList<RegisterCorrectionResponse> Items, string? NextAfter);
