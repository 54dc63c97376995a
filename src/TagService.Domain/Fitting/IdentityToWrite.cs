using TagService.Domain.Identity;
using TagService.Domain.Identity.Schemes;
using TagService.Domain.Identity.Tags;
using TagService.Domain.Identity.Text;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Fitting;

/// <summary>An identity as a fitter writes it, reads it back and prints it.</summary>
/// <param name="Key">The identity.</param>
/// <param name="EpcHex">Content of EPC memory from bit 20h on, whole words in upper-case hexadecimal; null when only the key is known.</param>
/// <param name="Scheme">The EPC scheme of those bits; null with them, or when they follow none.</param>
public sealed record IdentityToWrite(IdentityKey Key, string? EpcHex, EpcScheme? Scheme)
{
    /// <summary>The PC word before it: the number of words, all else zero (TDS 2.3, section 15.1.1); null without bits.</summary>
    public PcWord? Pc => EpcHex is null ? null : PcWord.ForBits(EpcHex.Length * 4);

    /// <summary>Bits of EPC memory it needs; null without bits.</summary>
    public int? Bits => EpcHex?.Length * 4;

    /// <summary>Element string with brackets, for people; null for identities outside the GS1 keys.</summary>
    public string? ElementString => IdentityForms.ElementString(Key);

    /// <summary>Canonical GS1 Digital Link; null for identities outside the GS1 keys.</summary>
    public string? DigitalLink => IdentityForms.DigitalLink(Key);

    /// <summary>Does it go into the memory of a class? HF classes hold it as a web address in user memory.</summary>
    /// <param name="tagClass">The class.</param>
    public bool FitsInto(TagClass tagClass)
    {
        ArgumentNullException.ThrowIfNull(tagClass);
        return tagClass.Technology != TagTechnology.Uhf || (Bits ?? 0) <= tagClass.Memory.EpcBits;
    }

    /// <summary>From bits that were encoded.</summary>
    /// <param name="encoded">Scheme, identity and words.</param>
    public static IdentityToWrite Of(EncodedEpc encoded)
    {
        ArgumentNullException.ThrowIfNull(encoded);
        return new(encoded.Content.Key, encoded.Hex, encoded.Scheme);
    }

    /// <summary>From a text that was read: with bits when the text is bits or names a scheme, else the key alone.</summary>
    /// <param name="read">What was read.</param>
    public static IdentityToWrite Of(IdentityRead read)
    {
        ArgumentNullException.ThrowIfNull(read);
        return read.Scheme?.Encode(read.Content) is EncodedEpc encoded ? Of(encoded) : new(read.Key, null, null);
    }
}
