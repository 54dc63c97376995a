using System.Buffers;

namespace TagService.Domain.Identity;

/// <summary>The characters a field of a key may have, with their name in messages.</summary>
/// <param name="Allowed">The characters.</param>
/// <param name="Name">What they are, for messages.</param>
internal sealed record CharacterSet(SearchValues<char> Allowed, string Name)
{
    public static CharacterSet Digits { get; } = new(SearchValues.Create("0123456789"), "digits");

    /// <summary>GS1 AI-encodable set 82 (TDS 2.3, table A-1; read).</summary>
    public static CharacterSet Gs1 { get; } = new(
        SearchValues.Create("!\"%&'()*+,-./0123456789:;<=>?ABCDEFGHIJKLMNOPQRSTUVWXYZ_abcdefghijklmnopqrstuvwxyz"),
        "letters, digits and ! \" % & ' ( ) * + , - . / : ; < = > ? _ (GS1 set of 82 characters)");

    /// <summary>GS1 AI-encodable set 39, the 6-bit characters (TDS 2.3, table G-1; read).</summary>
    public static CharacterSet SixBit { get; } = new(
        SearchValues.Create("#-/0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"), "capital letters, digits, # - and / (GS1 set of 39 characters)");

    /// <summary>CAGE and DoDAAC codes: no I, no O (TDS 2.3, section 14.4.7; read).</summary>
    public static CharacterSet Cage { get; } = new(
        SearchValues.Create("0123456789ABCDEFGHJKLMNPQRSTUVWXYZ"), "digits and capital letters without I and O");

    public bool Holds(ReadOnlySpan<char> text) => !text.ContainsAnyExcept(Allowed);
}
