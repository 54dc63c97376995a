namespace TagService.Domain.Words;

/// <summary>One word of folded text.</summary>
/// <param name="Start">Where it starts in the folded text.</param>
/// <param name="Length">Its length.</param>
/// <param name="Part">Number of the part of equal weight it belongs to.</param>
/// <param name="Clause">Number of the clause within the whole text; the first of a part names the thing.</param>
internal readonly record struct TextToken(short Start, byte Length, byte Part, byte Clause)
{
    /// <summary>Most words looked at in one text.</summary>
    public const int Most = 64;

    /// <summary>Most folded characters looked at in one text.</summary>
    public const int MostCharacters = 512;

    public ReadOnlySpan<char> Of(ReadOnlySpan<char> folded) => folded.Slice(Start, Length);

    /// <summary>Splits folded text into words, dropping articles; returns their number.</summary>
    public static int Split(ReadOnlySpan<char> folded, Span<TextToken> tokens)
    {
        int n = 0, i = 0;
        byte part = 0, clause = 0;
        while (i < folded.Length && n < tokens.Length)
        {
            var start = i;
            while (i < folded.Length && folded[i] is not (' ' or TextFold.Aside or TextFold.Beside))
                i++;
            var word = TrimSerial(folded[start..i]);
            var mark = i < folded.Length ? folded[i++] : ' ';
            if (word.Length is > 0 and <= byte.MaxValue)
            {
                if (!FunctionWords.TryGet(word, out var role))
                    tokens[n++] = new((short)start, (byte)word.Length, part, clause);
                else if (role == FunctionWords.Role.Aside)
                    mark = TextFold.Aside;
                else if (role == FunctionWords.Role.Beside)
                    mark = TextFold.Beside;
            }

            if (mark == ' ' || clause == byte.MaxValue)
                continue;
            clause++;
            if (mark == TextFold.Beside)
                part++;
        }

        return n;
    }

    // "PUMP101" is PUMP with a running number; "PA6" and "V4A" are words of their own.
    private static ReadOnlySpan<char> TrimSerial(ReadOnlySpan<char> word)
    {
        var letters = word.Length;
        while (letters > 0 && char.IsAsciiDigit(word[letters - 1]))
            letters--;
        return letters >= 3 && !word[..letters].ContainsAnyInRange('0', '9') ? word[..letters] : word;
    }
}
