using TagService.Domain.Fitting;
using TagService.Domain.Identity;
using TagService.Storage.Tables;

namespace TagService.Api.Features.Fitting;

/// <summary>The identity an instruction names, or why it names none.</summary>
/// <param name="Identity">The identity; null when there is none.</param>
/// <param name="Note">What to know about it.</param>
/// <param name="ReservedAt">When it was reserved; null for the one of an encoded tag.</param>
/// <param name="NumberingRuleId">The rule it came from.</param>
internal sealed record ChosenIdentity(IdentityToWrite? Identity, string? Note, DateTimeOffset? ReservedAt = null, string? NumberingRuleId = null)
{
    public static readonly ChosenIdentity None = new(null, null);

    /// <summary>From the table.</summary>
    public static ChosenIdentity Of(ReservedIdentityRow row, string? note = null)
    {
        var bits = Convert.FromHexString(row.EpcHex);
        var scheme = EpcDecoder.Decode(bits, bits.Length * 8) is DecodedEpc decoded ? decoded.Scheme : null;
        return new(new(IdentityKey.Parse(row.Identity), row.EpcHex, scheme), note, row.ReservedAt, row.NumberingRuleId);
    }
}
