using System.Collections.Frozen;

namespace TagService.Domain.Words;

/// <summary>Small words of the languages that registers are kept in.</summary>
internal static class FunctionWords
{
    /// <summary>Role of a small word.</summary>
    public enum Role : byte
    {
        /// <summary>Articles and genitives: skipped.</summary>
        Skip,

        /// <summary>And, or: parts of equal weight.</summary>
        Beside,

        /// <summary>With, for, in: what follows describes, it is not the thing.</summary>
        Aside,
    }

    // Common vocabulary of the languages, folded. French and Italian "a" and Spanish "de" hold phrases together, hence Skip.
    private static readonly FrozenDictionary<string, Role> Words = new (Role Role, string List)[]
    {
        (Role.Skip, "the a an of der die das des dem den ein eine la les l d du de un une el los las del al il lo gli di della dei delle do da dos het nr"),
        (Role.Beside, "and or und oder et ou y o e ed en i lub oraz och og"),
        (Role.Aside, "with for from on in at to under w without incl including mit fur ohne inkl inklusive fr zu zur zum im am auf aus bei von vom pour avec sans dans sur dla z na con para per sin senza voor met zonder bij"),
    }
    .SelectMany(g => g.List.Split(' ').Select(word => (word, g.Role)))
    .ToFrozenDictionary(p => p.word, p => p.Role, StringComparer.Ordinal);

    private static readonly FrozenDictionary<string, Role>.AlternateLookup<ReadOnlySpan<char>> BySpan =
        Words.GetAlternateLookup<ReadOnlySpan<char>>();

    private const int Longest = 9;

    public static bool TryGet(ReadOnlySpan<char> word, out Role role)
    {
        role = default;
        return word.Length <= Longest && BySpan.TryGetValue(word, out role);
    }
}
