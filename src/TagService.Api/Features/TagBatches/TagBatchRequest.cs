using System.ComponentModel.DataAnnotations;
using TagService.Api.Features.TagClasses;
using TagService.Api.Http;
using TagService.Api.Http.Json;

namespace TagService.Api.Features.TagBatches;

/// <summary>A tag batch, whole: tags bought together.</summary>
public sealed record TagBatchRequest
{
    /// <summary>Id of the batch, if sent the same as in the path.</summary>
    [MaxLength(ItemId.MaxLength)]
    public string? Id { get; init; }

    /// <summary>Id in /v1/tag-classes.</summary>
    [MaxLength(60)]
    public required string TagClassId { get; init; }

    /// <summary>Lot as printed on the delivery; your own data, read by no calculation.</summary>
    [MinLength(1), MaxLength(200), RegularExpression(TextRules.OneLine)]
    public string? SupplierLot { get; init; }

    /// <summary>Number of tags bought.</summary>
    [Range(1, 1_000_000_000)]
    public int? Quantity { get; init; }

    /// <summary>Price of one tag in the currency, kept to four decimals.</summary>
    [Range(0, 1_000_000)]
    public decimal? Price { get; init; }

    /// <summary>ISO 4217 code of the price. Amounts are never converted.</summary>
    [RegularExpression("[A-Z]{3}")]
    public string? Currency { get; init; }

    /// <summary>Day of the delivery.</summary>
    public DateOnly? ReceivedOn { get; init; }

    /// <summary>Scheme in which the tags came encoded, in your own words.</summary>
    [MinLength(1), MaxLength(100), RegularExpression(TextRules.OneLine)]
    public string? EpcScheme { get; init; }

    /// <summary>Company prefix or first digits of the identities they came with, in your own words.</summary>
    [MinLength(1), MaxLength(100), RegularExpression(TextRules.OneLine)]
    public string? EpcPrefix { get; init; }

    /// <summary>Your own remark.</summary>
    [MaxLength(2000), RegularExpression(TagClassRequest.Storable)]
    public string? Note { get; init; }
}
