using System.ComponentModel.DataAnnotations;
using TagService.Domain.Identity;
using TagService.Domain.Identity.Text;

namespace TagService.Api.Features.Identities;

/// <summary>What a reader or a register has of a tag; at least one member.</summary>
public sealed record DecodeIdentityRequest
{
    internal const string EpcPattern = "[0-9A-Fa-f]{1,124}";

    /// <summary>EPC field (bank 01 from bit 20h on) in hexadecimal, four bits a digit, without CRC and PC word.</summary>
    [RegularExpression(EpcPattern)]
    public string? EpcHex { get; init; }

    /// <summary>PC word, four hexadecimal digits: says how long the EPC field is and whether it is GS1's.</summary>
    [RegularExpression("[0-9A-Fa-f]{4}")]
    public string? PcHex { get; init; }

    /// <summary>TID bank from its beginning on, in hexadecimal, whole bytes.</summary>
    [RegularExpression("([0-9A-Fa-f]{2}){1,64}")]
    public string? TidHex { get; init; }

    /// <summary>
    /// The identity in any text form: EPC in hexadecimal (whole words), urn:epc:id, urn:epc:tag, urn:epc:raw, GS1 Digital Link, element string with brackets, or the form this service writes.
    /// </summary>
    [MinLength(1), MaxLength(IdentityText.MaxLength)]
    public string? Identity { get; init; }

    /// <summary>Your licensed GS1 company prefixes, 6 to 12 digits each: element strings and the + schemes do not hold where the prefix ends, and URNs need it.</summary>
    [MaxLength(100)]
    public IReadOnlyList<string>? CompanyPrefixes { get; init; }

    internal CompanyPrefixes Prefixes => CompanyPrefixes is { Count: > 0 } ? new(CompanyPrefixes) : Domain.Identity.CompanyPrefixes.None;
}
