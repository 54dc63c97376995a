using TagService.Domain.Identity.Schemes;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>Fills what is written to the tag. Only the length of the identity is assumed: what nobody asked for needs no memory.</summary>
internal readonly record struct IdentityPart(int EpcBits, int UserMemoryBits, bool AccessPassword)
{
    public static IdentityPart Resolve(IdentityRecord? given, IdentityRecord? typical, Gaps gaps) => new(
        gaps.Pick(ResolvedField.EpcBits, BitsOf(given), BitsOf(typical), BitsOf(ProductDefault.All.Identity)),
        given?.UserMemoryBits ?? typical?.UserMemoryBits ?? 0,
        given?.AccessPassword ?? typical?.AccessPassword ?? false);

    /// <summary>Bits of a scheme of fixed length; null for another or an unknown name.</summary>
    public static int? BitsOf(string? scheme) => scheme is null ? null : EpcSchemes.Find(scheme)?.FixedBits;

    // The longer counts: a stated length below the scheme's is refused before.
    private static int? BitsOf(IdentityRecord? identity) =>
        BitsOf(identity?.Scheme) is not { } bits ? identity?.EpcBits : identity!.EpcBits is { } stated ? Math.Max(bits, stated) : bits;
}
