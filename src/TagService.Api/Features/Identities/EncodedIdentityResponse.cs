namespace TagService.Api.Features.Identities;

/// <summary>What to write on the tag. Verify by reading it back; locking is a decision of whoever answers for the tags.</summary>
/// <param name="Identity">Canonical form.</param>
/// <param name="Scheme">EPC scheme.</param>
/// <param name="EpcHex">EPC field in hexadecimal, filled with zeros to whole 16-bit words.</param>
/// <param name="EpcBits">Bits of the scheme before filling up, bits.</param>
/// <param name="MemoryBits">EPC memory the tag must have, whole words, bits.</param>
/// <param name="PcHex">PC word to write with it.</param>
/// <param name="CrcHex">CRC-16 that the tag will hold over PC word and EPC.</param>
/// <param name="PureIdentityUri">urn:epc:id.</param>
/// <param name="TagUri">urn:epc:tag; the + schemes have none.</param>
/// <param name="ElementString">GS1 element string with brackets.</param>
/// <param name="DigitalLink">GS1 Digital Link with the canonical host.</param>
public sealed record EncodedIdentityResponse(
    string Identity,
    string Scheme,
    string EpcHex,
    int EpcBits,
    int MemoryBits,
    string PcHex,
    string CrcHex,
    string? PureIdentityUri,
    string? TagUri,
    string? ElementString,
    string? DigitalLink);
