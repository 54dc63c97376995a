using System.ComponentModel.DataAnnotations;
using TagService.Api.Features.TagClasses;
using TagService.Api.Http;
using TagService.Domain.Numbering;

namespace TagService.Api.Features.NumberingRules;

/// <summary>A numbering rule, whole.</summary>
public sealed record NumberingRuleRequest
{
    /// <summary>Id of the rule, if sent the same as in the path.</summary>
    [MaxLength(ItemId.MaxLength)]
    public string? Id { get; init; }

    /// <summary>EPC scheme (GS1 EPC Tag Data Standard): giai for assets of their own, grai for returnable assets of a type, sgtin for trade items.</summary>
    [AllowedValues("giai-96", "giai-202", "giai+", "grai-96", "grai-170", "grai+", "sgtin-96", "sgtin-198", "sgtin+")]
    public required string Scheme { get; init; }

    /// <summary>
    /// GS1 company prefix, 6 to 12 digits: the one that GS1 licensed to the owner of the assets. Identities under another's prefix may be
    /// on another's things.
    /// </summary>
    [RegularExpression("[0-9]{6,12}")]
    public required string CompanyPrefix { get; init; }

    /// <summary>Filter value, a hint for selecting tags over the air, without unit and no part of the identity; 0 (all others) if absent. In GIAI, 1 means rail vehicles.</summary>
    [Range(0, 7)]
    public int? Filter { get; init; }

    /// <summary>grai schemes only: asset type; with the company prefix 12 digits, so empty or absent beside a prefix of 12.</summary>
    [RegularExpression("[0-9]{0,6}")]
    public string? AssetType { get; init; }

    /// <summary>sgtin schemes only: indicator digit (0 for single items) and item reference; with the company prefix 13 digits.</summary>
    [RegularExpression("[0-9]{1,7}")]
    public string? ItemReference { get; init; }

    /// <summary>Digits or letters that stand before every number; letters need a scheme that takes them (giai-202, giai+, grai-170, grai+, sgtin-198, sgtin+).</summary>
    [RegularExpression("[0-9A-Za-z]{0,20}")]
    public string? Leading { get; init; }

    /// <summary>Number of digits to which numbers are padded with zeros; absent: not padded. The 96-bit schemes take no leading zeros.</summary>
    [Range(1, NumberingRule.MaxDigits)]
    public int? Digits { get; init; }

    /// <summary>The number that comes next, without unit; absent: a new rule begins with 1, another goes on where it is.</summary>
    [Range(0, (double)NumberingRule.HighestNumber)]
    public long? NextNumber { get; init; }

    /// <summary>Last number that may be handed out, without unit; absent: the highest that fits scheme, leading characters and digits.</summary>
    [Range(0, (double)NumberingRule.HighestNumber)]
    public long? LastNumber { get; init; }

    /// <summary>Is it the rule for whoever names none? There is one at most: true takes that from the rule that has it; false if absent.</summary>
    public bool? IsDefault { get; init; }

    /// <summary>Your own remark.</summary>
    [MaxLength(2000), RegularExpression(TagClassRequest.Storable)]
    public string? Note { get; init; }
}
