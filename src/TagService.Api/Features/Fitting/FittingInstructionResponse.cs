using System.Text.Json.Serialization;
using TagService.Api.Features.Recommendations;
using TagService.Domain.Fitting;

namespace TagService.Api.Features.Fitting;

/// <summary>What a fitter needs for one asset, in the order of the work.</summary>
/// <param name="AssetId">The register's key.</param>
/// <param name="Category">The register's category.</param>
/// <param name="Description">The register's description.</param>
/// <param name="LocationName">Where the register says the asset is, in the register's words.</param>
/// <param name="Fitting">What to fit and how; null when no tag class suits.</param>
/// <param name="NoneBecause">Why no tag class suits and what would have to change; absent when one does.</param>
/// <param name="AttachedNow">Tags that are on the asset already.</param>
/// <param name="Identity">The identity to write, or of the encoded tag that was asked for; absent when there is none.</param>
/// <param name="IdentityNote">What to know about it: why there is none, or what to do first.</param>
/// <param name="Cautions">Every caution, the gravest first; the parts of fitting say where each belongs.</param>
/// <param name="ToConfirm">What was assumed of the place: look at it before starting, and stop if it does not hold.</param>
/// <param name="Recording">How to record the result.</param>
/// <param name="EngineVersion">Version of rules and formulas.</param>
/// <param name="CatalogueVersion">Version of the tag-class catalogue.</param>
public sealed record FittingInstructionResponse(
    string AssetId,
    string? Category,
    string? Description,
    string? LocationName,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] FittingResponse? Fitting,
    NoneBecauseResponse? NoneBecause,
    IReadOnlyList<AttachedTagResponse> AttachedNow,
    IdentityToWriteResponse? Identity,
    string? IdentityNote,
    IReadOnlyList<CautionResponse> Cautions,
    IReadOnlyList<AssumptionResponse> ToConfirm,
    FittingRecordingResponse? Recording,
    string EngineVersion,
    string CatalogueVersion);

/// <summary>The tag class to fit and the work that goes with it.</summary>
/// <param name="TagClassId">Id in /v1/tag-classes.</param>
/// <param name="Name">Plain name of the tag class.</param>
/// <param name="Description">What it is.</param>
/// <param name="LengthMm">Length of the tag in mm.</param>
/// <param name="WidthMm">Width of the tag in mm.</param>
/// <param name="HeightMm">Height of the tag in mm.</param>
/// <param name="AttachmentMethodId">Id in /v1/attachment-methods.</param>
/// <param name="AttachmentMethodName">Plain name of the fixing.</param>
/// <param name="Minutes">Minutes to prepare, fix, write, check and record, without the way there and the wait for a bond; planning value.</param>
/// <param name="ExpectedRange">Expected range over such assets, one look.</param>
/// <param name="RequiredRangeM">Distance in m at which it has to answer in use.</param>
/// <param name="RequiredRangeProbability">Probability, 0 to 1, that a stock-take reads such an asset there.</param>
/// <param name="OnlyJust">What only just holds: look at it on the spot.</param>
/// <param name="Place">Where on the asset.</param>
/// <param name="FirstCautionIds">Cautions to read before anything is touched.</param>
/// <param name="Preparing">Steps of preparation.</param>
/// <param name="Fixing">Steps of fixing.</param>
/// <param name="ReaderCautionIds">Cautions to read before a reader is switched on.</param>
/// <param name="Writing">What to write and lock.</param>
/// <param name="Check">When the tag is accepted.</param>
/// <param name="Kit">What to bring along.</param>
public sealed record FittingResponse(
    string TagClassId,
    string Name,
    string Description,
    double LengthMm,
    double WidthMm,
    double HeightMm,
    string AttachmentMethodId,
    string AttachmentMethodName,
    double Minutes,
    ExpectedRangeResponse ExpectedRange,
    double RequiredRangeM,
    double RequiredRangeProbability,
    IReadOnlyList<string> OnlyJust,
    FittingPlaceResponse Place,
    IReadOnlyList<string> FirstCautionIds,
    IReadOnlyList<FittingStepResponse> Preparing,
    IReadOnlyList<FittingStepResponse> Fixing,
    IReadOnlyList<string> ReaderCautionIds,
    TagWritingResponse Writing,
    AcceptanceCheckResponse Check,
    IReadOnlyList<FittingKitResponse> Kit);

/// <summary>Where on the asset the tag goes.</summary>
/// <param name="Surface">The surface in words: material, coating, flat or curved.</param>
/// <param name="LengthMm">Free length in mm that it needs, margin included.</param>
/// <param name="WidthMm">Free width in mm that it needs, margin included.</param>
/// <param name="HeightMm">Height in mm by which it stands off the surface, spacing included.</param>
/// <param name="SpacingMm">Distance in mm that the fixing puts between tag and surface.</param>
public sealed record FittingPlaceResponse(string Surface, double LengthMm, double WidthMm, double HeightMm, double SpacingMm);

/// <summary>One step.</summary>
/// <param name="StepId">Id of the step.</param>
/// <param name="Text">What to do.</param>
/// <param name="CautionId">Caution to read before it.</param>
public sealed record FittingStepResponse(string StepId, string Text, string? CautionId);

/// <summary>A tool, consumable or protection.</summary>
/// <param name="Id">Id of the thing.</param>
/// <param name="Name">Plain name.</param>
/// <param name="Kind">What becomes of it.</param>
public sealed record FittingKitResponse(string Id, string Name, KitKind Kind);

/// <summary>A tag that is on the asset.</summary>
/// <param name="AttachmentId">The attachment.</param>
/// <param name="Identity">Canonical text of its identity.</param>
/// <param name="TagClassId">Its tag class, where known.</param>
public sealed record AttachedTagResponse(Guid AttachmentId, string Identity, string? TagClassId);
