namespace TagService.Api.Features.TagBatches;

/// <summary>One tag batch.</summary>
/// <param name="Id">Its id.</param>
/// <param name="TagClassId">Id in /v1/tag-classes.</param>
/// <param name="SupplierLot">Lot as printed on the delivery.</param>
/// <param name="Quantity">Number of tags bought.</param>
/// <param name="Price">Price of one tag in the currency.</param>
/// <param name="Currency">ISO 4217 code of the price.</param>
/// <param name="ReceivedOn">Day of the delivery.</param>
/// <param name="EpcScheme">Scheme in which the tags came encoded, in your own words.</param>
/// <param name="EpcPrefix">Company prefix or first digits of the identities they came with, in your own words.</param>
/// <param name="Note">Your own remark.</param>
/// <param name="UpdatedAt">When it was last changed.</param>
/// <param name="Use">What became of its tags.</param>
public sealed record TagBatchResponse(
    string Id,
    string TagClassId,
    string? SupplierLot,
    int? Quantity,
    decimal? Price,
    string? Currency,
    DateOnly? ReceivedOn,
    string? EpcScheme,
    string? EpcPrefix,
    string? Note,
    DateTimeOffset UpdatedAt,
    TagBatchUseResponse Use);

/// <summary>What became of the tags of a batch, by the attachments that name it. Entries that never happened count nowhere.</summary>
/// <param name="Bought">Number of tags bought; absent when nobody said.</param>
/// <param name="Fitted">Number of tags fitted, each once however often it was moved.</param>
/// <param name="Remainder">Number of tags bought and not fitted; below 0 when more were fitted than bought, so that one of the two is wrong.</param>
/// <param name="Attachments">Number of attachments of those tags; the four numbers that follow add up to it.</param>
/// <param name="OpenNow">Number of attachments that nobody knows an end of.</param>
/// <param name="Failed">Number of attachments that ended with a failure.</param>
/// <param name="Removed">Number of attachments that ended for another reason than a failure.</param>
/// <param name="NotKnown">Number of attachments that ended without anybody knowing whether by a failure.</param>
public sealed record TagBatchUseResponse(
    int? Bought, long Fitted, long? Remainder, long Attachments, long OpenNow, long Failed, long Removed, long NotKnown);

/// <summary>One page of tag batches in ordinal order of their ids. The Link header (RFC 8288) has the address of the next page.</summary>
/// <param name="Items">The batches.</param>
/// <param name="NextAfter">The value of after for the next page; absent on the last one.</param>
public sealed record TagBatchPageResponse(IReadOnlyList<TagBatchResponse> Items, string? NextAfter);
