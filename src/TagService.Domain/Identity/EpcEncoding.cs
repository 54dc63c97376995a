using System.Collections.Immutable;
using TagService.Domain.Identity.Schemes;
using TagService.Domain.Identity.Tags;

namespace TagService.Domain.Identity;

/// <summary>Result of writing an identity in a scheme: <see cref="EncodedEpc"/> or <see cref="EpcRefused"/>.</summary>
public abstract record EpcEncoding
{
    private protected EpcEncoding()
    {
    }
}

/// <summary>The bits to write.</summary>
/// <param name="Scheme">The scheme.</param>
/// <param name="Content">What was encoded.</param>
/// <param name="Bits">Bits of the scheme, without padding.</param>
/// <param name="Words">The bits, filled with zeros to whole 16-bit words as a tag stores them.</param>
public sealed record EncodedEpc(EpcScheme Scheme, EpcContent Content, int Bits, ImmutableArray<byte> Words) : EpcEncoding
{
    /// <summary>The words as upper-case hexadecimal digits.</summary>
    public string Hex => Convert.ToHexString(Words.AsSpan());

    /// <summary>The PC word to write with it: length, all else zero.</summary>
    public PcWord Pc => PcWord.ForBits(Bits);
}

/// <summary>The identity does not go into the scheme.</summary>
/// <param name="Reason">Field, value and what would be accepted.</param>
public sealed record EpcRefused(Refusal Reason) : EpcEncoding;
