using System.ComponentModel.DataAnnotations;
using TagService.Domain.Identity.Text;

namespace TagService.Api.Features.Identities;

/// <summary>An identity of an asset and the scheme to write it in: the parts of its key, or the identity as text.</summary>
public sealed record EncodeIdentityRequest
{
    /// <summary>EPC scheme.</summary>
    [AllowedValues("GIAI-96", "GIAI-202", "GIAI+", "GRAI-96", "GRAI-170", "GRAI+", "SGTIN-96", "SGTIN-198", "SGTIN+")]
    public required string Scheme { get; init; }

    /// <summary>The owner's GS1 company prefix, 6 to 12 digits. With identity only needed where the text does not say where the prefix ends.</summary>
    [RegularExpression("[0-9]{6,12}")]
    public string? CompanyPrefix { get; init; }

    /// <summary>GIAI: individual asset reference.</summary>
    [MinLength(1), MaxLength(24)]
    public string? Reference { get; init; }

    /// <summary>GRAI: asset type; with the prefix 12 digits, so empty or absent beside a prefix of 12.</summary>
    [RegularExpression("[0-9]{0,6}")]
    public string? AssetType { get; init; }

    /// <summary>SGTIN: indicator digit (0 for single items) and item reference; with the prefix 13 digits.</summary>
    [RegularExpression("[0-9]{1,7}")]
    public string? ItemReference { get; init; }

    /// <summary>GRAI and SGTIN: serial.</summary>
    [MinLength(1), MaxLength(20)]
    public string? Serial { get; init; }

    /// <summary>The identity in any text form, instead of the parts.</summary>
    [MinLength(1), MaxLength(IdentityText.MaxLength)]
    public string? Identity { get; init; }

    /// <summary>Filter value, a number without unit; absent: 0. Of the GIAI values only 1, rail vehicle, has a meaning of its own.</summary>
    [Range(0, 7)]
    public int? Filter { get; init; }
}
