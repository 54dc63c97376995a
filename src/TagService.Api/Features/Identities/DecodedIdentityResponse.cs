using TagService.Domain.Identity;
using TagService.Domain.Identity.Tags;

namespace TagService.Api.Features.Identities;

/// <summary>What the tag's memory or the text says.</summary>
/// <param name="Identity">Canonical form, the same for all schemes, filters and text forms of one identity; absent when only a PC word or a TID was sent.</param>
/// <param name="Kind">What it is the identity of.</param>
/// <param name="Scheme">EPC scheme, for example GIAI-96; absent for raw bits and for texts that name none.</param>
/// <param name="Filter">Filter value, a number without unit: a hint for selecting tags over the air, no part of the identity.</param>
/// <param name="Key">AIs and values of a GS1 key.</param>
/// <param name="PureIdentityUri">urn:epc:id; absent for raw bits and where the length of the company prefix is not known.</param>
/// <param name="TagUri">urn:epc:tag with scheme and filter; the + schemes have none.</param>
/// <param name="RawUri">urn:epc:raw, for bits that follow no scheme.</param>
/// <param name="ElementString">GS1 element string with brackets, the date of a DSGTIN behind it.</param>
/// <param name="DigitalLink">GS1 Digital Link; with the host the tag holds, else the canonical one.</param>
/// <param name="Pc">The PC word, taken apart.</param>
/// <param name="Tid">The TID, taken apart.</param>
/// <param name="Notes">What to know about it, in plain words.</param>
public sealed record DecodedIdentityResponse(
    string? Identity,
    IdentityKind? Kind,
    string? Scheme,
    int? Filter,
    IdentityKeyResponse? Key,
    string? PureIdentityUri,
    string? TagUri,
    string? RawUri,
    string? ElementString,
    string? DigitalLink,
    PcWordResponse? Pc,
    TidResponse? Tid,
    IReadOnlyList<string> Notes);

/// <summary>A GS1 key by its AIs.</summary>
/// <param name="Ai">AI of the key.</param>
/// <param name="Value">Its value, with check digit; for GRAI, GDTI and coupons with the serial behind it, as their AI has it.</param>
/// <param name="SerialAi">AI of the serial or extension where it has one of its own.</param>
/// <param name="Serial">Serial or extension.</param>
/// <param name="CompanyPrefix">GS1 company prefix, where it is known where it ends.</param>
public sealed record IdentityKeyResponse(string Ai, string Value, string? SerialAi, string? Serial, string? CompanyPrefix);

/// <summary>A PC word.</summary>
/// <param name="EpcBits">Length of the EPC field, bits.</param>
/// <param name="UserMemory">User memory holds something.</param>
/// <param name="Xpc">An extended PC word is set.</param>
/// <param name="Afi">Application family identifier of content that is not GS1's, two hexadecimal digits.</param>
public sealed record PcWordResponse(int EpcBits, bool UserMemory, bool Xpc, string? Afi);

/// <summary>A TID.</summary>
/// <param name="AllocationClass">Who gave out the rest.</param>
/// <param name="MaskDesigner">Number of the mask designer (E2) or manufacturer (E0, E3), without unit.</param>
/// <param name="ModelNumber">Tag model number (E2), without unit.</param>
/// <param name="Xtid">Header of the extended TID, four hexadecimal digits.</param>
/// <param name="Serial">Serial number in hexadecimal.</param>
/// <param name="StidUri">urn:epc:stid, for E2 with a serial.</param>
/// <param name="ChipKey">What to compare chips by; absent where this chip cannot be told from others.</param>
/// <param name="MissingBits">Bits the TID announces that were not sent; 0 when complete, bits.</param>
public sealed record TidResponse(
    AllocationClass AllocationClass, int? MaskDesigner, int? ModelNumber, string? Xtid, string? Serial, string? StidUri, string? ChipKey, int MissingBits);
