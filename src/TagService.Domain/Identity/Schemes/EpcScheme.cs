using System.Collections.Immutable;

namespace TagService.Domain.Identity.Schemes;

/// <summary>
/// One way to write an identity into the EPC field of a tag. A new one: a class (or a row of a family) here and a line in
/// <see cref="EpcSchemes.All"/>; the shared round-trip, refusal and fuzz tests then cover it.
/// </summary>
public abstract class EpcScheme
{
    // Longer than any scheme can grow, so that what does not fit a tag is measured and not cut.
    private const int BufferBytes = 160;

    private protected EpcScheme(string name, byte header, IdentityKind kind, int? fixedBits)
    {
        Name = name;
        Header = header;
        Kind = kind;
        FixedBits = fixedBits;
    }

    /// <summary>Name as the standard writes it, for example <c>GIAI-96</c>.</summary>
    public string Name { get; }

    /// <summary>First eight bits of the EPC field.</summary>
    public byte Header { get; }

    /// <summary>Kind of identity.</summary>
    public IdentityKind Kind { get; }

    /// <summary>Bits of every EPC of the scheme; null when they depend on the value.</summary>
    public int? FixedBits { get; }

    /// <summary>Highest filter value: 7, 15 or 63, or 0 for a scheme without filter.</summary>
    public virtual int HighestFilter => 7;

    /// <summary>Does the scheme hold where the company prefix ends? Then encoding needs to be told.</summary>
    public virtual bool HoldsCompanyPrefix => false;

    /// <summary>Has it a tag URI? The <c>+</c> and <c>++</c> schemes have none.</summary>
    public virtual bool HasTagUri => true;

    /// <summary>Does it hold a prioritised date?</summary>
    public virtual bool HoldsDate => false;

    /// <summary>Does it hold a host name?</summary>
    public virtual bool HoldsHostName => false;

    /// <summary>Writes an identity in this scheme. Tested by round trips and printed vectors over all schemes.</summary>
    /// <param name="content">Identity, filter and, where the scheme holds it, company prefix length, date and host.</param>
    /// <returns>The bits, or which field does not go in.</returns>
    public EpcEncoding Encode(EpcContent content)
    {
        if (content.Key.Kind != Kind)
            return Refuse("scheme", Name, $"{Name} cannot hold an identity of kind {content.Key.Kind}.", $"a scheme of kind {content.Key.Kind}");
        if (content.Filter < 0 || content.Filter > HighestFilter)
            return Refuse("filter", Text(content.Filter), $"The filter value of {Name} is out of range.", HighestFilter == 0 ? "0" : $"0 to {HighestFilter}");
        Span<byte> buffer = stackalloc byte[BufferBytes];
        buffer.Clear();
        var writer = new BitWriter(buffer);
        writer.Write(Header, 8);
        if (Write(ref writer, content) is { } refusal)
            return new EpcRefused(refusal);
        var bits = writer.Position;
        return bits <= EpcDecoder.MaxBits
            ? new EncodedEpc(this, content, bits, ImmutableArray.Create<byte>(buffer[..((bits + 15) / 16 * 2)]))
            : Refuse("identity", content.Key.ToString(), $"{Name} needs {bits} bits for it.", "at most 496 bits, the longest EPC field of a tag");
    }

    /// <summary>
    /// Bits of EPC memory the identity needs in this scheme: the scheme's own number (96, 170, 195, 198, 202, ...) where it is
    /// fixed, else the bits used rounded up to whole 16-bit words. Tags have memory in whole words, so either number can be
    /// compared with the memory of a tag class.
    /// </summary>
    /// <param name="key">The identity.</param>
    /// <param name="companyPrefixLength">Digits of the company prefix, for schemes that hold it.</param>
    /// <returns>Bits, or null when the identity does not go into the scheme.</returns>
    public int? RequiredBits(IdentityKey key, int companyPrefixLength = 0) =>
        Encode(new(key, CompanyPrefixLength: companyPrefixLength)) is EncodedEpc encoded ? FixedBits ?? encoded.Words.Length * 8 : null;

    /// <inheritdoc />
    public override string ToString() => Name;

    /// <summary>Reads what follows the header. Reading past the end needs no check here: the caller looks at the reader.</summary>
    /// <returns>Null, or in words why the bits do not follow the scheme; a constant text, as this is on the path of every read.</returns>
    internal abstract string? Read(ref BitReader reader, out EpcContent content);

    /// <summary>Writes what follows the header, or says what does not go in.</summary>
    internal abstract Refusal? Write(ref BitWriter writer, in EpcContent content);

    private protected static string Text(int value) => value.ToString(System.Globalization.CultureInfo.InvariantCulture);

    private static EpcRefused Refuse(string field, string value, string detail, string accepted) => new(new(field, value, detail, accepted));
}
