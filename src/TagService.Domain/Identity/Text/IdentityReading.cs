using TagService.Domain.Identity.Schemes;

namespace TagService.Domain.Identity.Text;

/// <summary>What a text is: <see cref="IdentityRead"/> or <see cref="IdentityRefused"/>.</summary>
public abstract record IdentityReading
{
    private const int MaxQuoted = 80;

    private protected IdentityReading()
    {
    }

    internal static IdentityRefused Refuse(string field, ReadOnlySpan<char> value, string detail, string accepted) =>
        new(new(field, value[..Math.Min(value.Length, MaxQuoted)].ToString(), detail, accepted));
}

/// <summary>The text is an identity.</summary>
/// <param name="Content">The identity, and what else the text says: filter, company prefix length, date, host.</param>
/// <param name="Scheme">The scheme, when the text names one or is bits.</param>
/// <param name="Note">Why bits stay raw, in words; null otherwise.</param>
public sealed record IdentityRead(EpcContent Content, EpcScheme? Scheme = null, string? Note = null) : IdentityReading
{
    /// <summary>The identity.</summary>
    public IdentityKey Key => Content.Key;

    /// <summary>Bits as a reading.</summary>
    /// <param name="decoding">What the bits are.</param>
    public static IdentityRead Of(EpcDecoding decoding) => decoding switch
    {
        DecodedEpc decoded => new(decoded.Content, decoded.Scheme),
        RawEpc raw => new(new(raw.Key), null, raw.Reason),
        _ => throw new InvalidOperationException("A decoding is decoded or raw."),
    };
}

/// <summary>The text is no identity.</summary>
/// <param name="Reason">Field, value and what would be accepted.</param>
public sealed record IdentityRefused(Refusal Reason) : IdentityReading;
