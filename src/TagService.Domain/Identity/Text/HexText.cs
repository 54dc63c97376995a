namespace TagService.Domain.Identity.Text;

/// <summary>
/// EPC fields in hexadecimal, as readers report them: whole words, spaces between them allowed, perhaps <c>0x</c> before. Fewer than 24
/// digits count only if they follow a scheme: a short number in a register is more likely something else.
/// </summary>
internal static class HexText
{
    private const int DigitsOfAnyContent = 24;
    private const int MaxDigits = EpcDecoder.MaxBits / 4;

    public static IdentityReading Parse(string text)
    {
        var digits = text.Replace(" ", "", StringComparison.Ordinal);
        if (digits.StartsWith("0x", StringComparison.OrdinalIgnoreCase))
            digits = digits[2..];
        if (digits.Length == 0 || digits.AsSpan().ContainsAnyExcept(HexDigits))
            return IdentityReading.Refuse("identity", text, "The text has none of the known forms.", IdentityText.Accepted);
        if (digits.Length % 4 != 0 || digits.Length > MaxDigits)
        {
            return IdentityReading.Refuse(
                "identity", text, $"An EPC field has whole words of four hexadecimal digits; this has {digits.Length} digits.",
                $"4 to {MaxDigits} digits in multiples of four");
        }

        var read = IdentityRead.Of(EpcDecoder.Decode(Convert.FromHexString(digits), 4 * digits.Length));
        return read.Scheme is null && digits.Length < DigitsOfAnyContent
            ? IdentityReading.Refuse(
                "identity", text, $"{digits.Length} hexadecimal digits that follow no EPC scheme are too few to be taken for an EPC. {read.Note}",
                $"at least {DigitsOfAnyContent} digits, or urn:epc:raw:{4 * digits.Length}.x{digits.ToUpperInvariant()} if these are the bits of a tag")
            : read;
    }

    internal static System.Buffers.SearchValues<char> HexDigits { get; } = System.Buffers.SearchValues.Create("0123456789ABCDEFabcdef");
}
