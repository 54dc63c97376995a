using System.Globalization;
using TagService.Domain.Identity;
using TagService.Domain.Identity.Tags;
using TagService.Domain.Identity.Text;

namespace TagService.Api.Features.Identities;

/// <summary>Identities as they are answered.</summary>
internal static class IdentityMapping
{
    public static DecodedIdentityResponse Of(DecodeIdentityRequest request, IdentityRead? read)
    {
        var prefixes = request.Prefixes;
        PcWord? pc = PcWord.TryParse(request.PcHex, out var word) ? word : null;
        var tid = request.TidHex is { } hex ? TagIdentifier.Read(Convert.FromHexString(hex)) : null;
        return new(
            read?.Key.ToString(),
            read?.Key.Kind,
            read?.Scheme?.Name,
            read?.Scheme is { HighestFilter: > 0 } ? read.Content.Filter : null,
            read is null ? null : KeyOf(read.Content, prefixes),
            read is null ? null : IdentityForms.PureIdentityUri(read.Content, prefixes),
            read?.Scheme is { } scheme ? IdentityForms.TagUri(scheme, read.Content) : null,
            read is null ? null : IdentityForms.RawUri(read.Key),
            read is null ? null : IdentityForms.ElementString(read.Content),
            read is null ? null : IdentityForms.DigitalLink(read.Key, read.Content.HostName),
            pc is { } p ? new(p.EpcBits, p.HasUserMemory, p.HasXpc, p.IsIso ? p.Afi.ToString("X2", CultureInfo.InvariantCulture) : null) : null,
            tid is null ? null : new(
                tid.AllocationClass, tid.MaskDesigner, tid.ModelNumber, tid.Xtid?.ToString(), tid.Serial, tid.StidUri, tid.ChipKey, tid.MissingBits),
            [.. IdentityNotes.Of(read, prefixes), .. IdentityNotes.Of(pc, request.EpcHex), .. IdentityNotes.Of(tid)]);
    }

    private static IdentityKeyResponse? KeyOf(EpcContent content, CompanyPrefixes prefixes)
    {
        var key = content.Key;
        if (key.Ai is null)
            return null;
        var length = content.CompanyPrefixLength > 0 ? content.CompanyPrefixLength : prefixes.LengthFor(key);
        return new(key.Ai, key.AiValue!, key.SerialAi, key.Serial, length is { } l ? key.CompanyPrefix(l) : null);
    }
}
