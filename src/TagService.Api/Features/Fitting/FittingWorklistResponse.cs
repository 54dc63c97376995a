using TagService.Api.Features.Recommendations;
using TagService.Domain.Fitting;

namespace TagService.Api.Features.Fitting;

/// <summary>One page of assets without a tag, place by place, and what to take along for them.</summary>
/// <param name="Items">Assets to fit, in the order of their places.</param>
/// <param name="WithoutSuitableClass">Assets for which no tag class suits.</param>
/// <param name="Totals">What to take along for the items of this page, and how long they take.</param>
/// <param name="Cautions">Every caution of the items, the gravest first.</param>
/// <param name="IdentityNote">Why items have no identity; absent when all have one or none was asked for.</param>
/// <param name="NextAfter">The value of after for the next page; absent on the last one.</param>
public sealed record FittingWorklistResponse(
    IReadOnlyList<WorklistItemResponse> Items,
    IReadOnlyList<WorklistRefusedResponse> WithoutSuitableClass,
    WorklistTotalsResponse Totals,
    IReadOnlyList<CautionResponse> Cautions,
    string? IdentityNote,
    string? NextAfter);

/// <summary>One asset to fit.</summary>
/// <param name="AssetId">The register's key.</param>
/// <param name="Category">The register's category.</param>
/// <param name="LocationName">Where the register says it is, in the register's words.</param>
/// <param name="LocationId">Id in /v1/locations of what those words mean; absent when they mean none or more than one.</param>
/// <param name="LocationPath">Names of the places from the top down to that one.</param>
/// <param name="TagClassId">Id in /v1/tag-classes.</param>
/// <param name="TagClassName">Plain name of the tag class.</param>
/// <param name="AttachmentMethodId">Id in /v1/attachment-methods.</param>
/// <param name="AttachmentMethodName">Plain name of the fixing.</param>
/// <param name="Minutes">Minutes to prepare, fix, write, check and record; planning value.</param>
/// <param name="Identity">Canonical text of the identity reserved for it; absent until one is.</param>
/// <param name="EpcHex">Content of EPC memory for that identity, in hexadecimal.</param>
/// <param name="CautionIds">Cautions of the work on it.</param>
/// <param name="Instruction">Path of its instruction.</param>
public sealed record WorklistItemResponse(
    string AssetId,
    string? Category,
    string? LocationName,
    string? LocationId,
    IReadOnlyList<string>? LocationPath,
    string TagClassId,
    string TagClassName,
    string AttachmentMethodId,
    string AttachmentMethodName,
    double Minutes,
    string? Identity,
    string? EpcHex,
    IReadOnlyList<string> CautionIds,
    string Instruction);

/// <summary>One asset for which no tag class suits.</summary>
/// <param name="AssetId">The register's key.</param>
/// <param name="Category">The register's category.</param>
/// <param name="LocationName">Where the register says it is.</param>
/// <param name="Reason">Why none suits.</param>
/// <param name="FirstChange">The first change that would let a class in; absent when no single one would.</param>
/// <param name="Instruction">Path of its instruction, which has them all.</param>
public sealed record WorklistRefusedResponse(
    string AssetId, string? Category, string? LocationName, string Reason, string? FirstChange, string Instruction);

/// <summary>What to take along.</summary>
/// <param name="Assets">Number of assets to fit.</param>
/// <param name="Minutes">Minutes of work at the assets, without the way and without waiting for bonds.</param>
/// <param name="Tags">Tags by class.</param>
/// <param name="Kit">Tools, consumables and protection.</param>
public sealed record WorklistTotalsResponse(
    int Assets, double Minutes, IReadOnlyList<WorklistTagsResponse> Tags, IReadOnlyList<WorklistKitResponse> Kit);

/// <summary>Tags of one class.</summary>
/// <param name="TagClassId">Id in /v1/tag-classes.</param>
/// <param name="Name">Plain name.</param>
/// <param name="ToFit">Number of tags to fit.</param>
/// <param name="Spares">Number of spares, by the planning share of tags that fail the acceptance check.</param>
/// <param name="Tags">Number of tags to carry.</param>
public sealed record WorklistTagsResponse(string TagClassId, string Name, int ToFit, int Spares, int Tags);

/// <summary>One thing to bring.</summary>
/// <param name="Id">Id of the thing.</param>
/// <param name="Name">Plain name.</param>
/// <param name="Kind">What becomes of it.</param>
/// <param name="Quantity">Amount used up in the unit that follows; absent for what comes back.</param>
/// <param name="Unit">Unit of the quantity.</param>
/// <param name="ForAssets">Number of assets that need it.</param>
public sealed record WorklistKitResponse(string Id, string Name, KitKind Kind, double? Quantity, string? Unit, int ForAssets);
