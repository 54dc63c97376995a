using TagService.Domain.Identity.Schemes;

namespace TagService.Domain.Identity;

/// <summary>What the bits of an EPC field are: <see cref="DecodedEpc"/> or <see cref="RawEpc"/>. Both have a key, so no read is lost.</summary>
/// <param name="Key">The identity.</param>
public abstract record EpcDecoding(IdentityKey Key);

/// <summary>The bits follow a scheme.</summary>
/// <param name="Scheme">The scheme.</param>
/// <param name="Content">What they say.</param>
public sealed record DecodedEpc(EpcScheme Scheme, EpcContent Content) : EpcDecoding(Content.Key);

/// <summary>The bits are no EPC that can be read; they are their own identity.</summary>
/// <param name="Key">The bits.</param>
/// <param name="Reason">Why, in words.</param>
public sealed record RawEpc(IdentityKey Key, string Reason) : EpcDecoding(Key);
