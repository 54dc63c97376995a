using TagService.Domain.Identity;
using TagService.Domain.Identity.Tags;
using TagService.Domain.Identity.Text;

namespace TagService.Api.Features.Identities;

/// <summary>What to know about a decoded tag, in plain words.</summary>
internal static class IdentityNotes
{
    public static IEnumerable<string> Of(IdentityRead? read, CompanyPrefixes prefixes)
    {
        if (read is null)
            yield break;
        if (read.Note is { } note)
            yield return $"{note} The bits are kept as their own identity.";
        if (read.Key.Ai is not null && IdentityForms.PureIdentityUri(read.Content, prefixes) is null)
            yield return "Where the company prefix ends is not known, so there is no pure identity URI; companyPrefixes can tell.";
        if (read.Content.HasMoreData)
            yield return "Further AIs may follow the identity in the EPC field; they are not read.";
        if (read.Scheme is { HoldsHostName: true } && read.Content.HostName is null)
            yield return "The host name in the EPC field is none, so the Digital Link has the canonical host.";
    }

    public static IEnumerable<string> Of(PcWord? pc, string? epcHex)
    {
        if (pc is not { } word || epcHex is null)
            yield break;
        var bits = 4 * epcHex.Length;
        if (bits > word.EpcBits)
            yield return $"The PC word gives the EPC field {word.EpcBits} bits; the rest of the {bits} sent is left aside.";
        if (bits < word.EpcBits)
            yield return $"The PC word gives the EPC field {word.EpcBits} bits; only {bits} were sent, so bits may be missing.";
    }

    public static IEnumerable<string> Of(TagIdentifier? tid)
    {
        if (tid is null)
            yield break;
        if (!tid.IsComplete)
            yield return $"The TID is incomplete: {tid.MissingBits} bits that it announces were not sent. Incomplete does not mean different.";
        else if (tid.ChipKey is null)
            yield return "The TID has no serial that is known here: it names a model, not one chip.";
    }
}
