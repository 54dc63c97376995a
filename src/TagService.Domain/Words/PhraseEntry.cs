namespace TagService.Domain.Words;

/// <summary>Order of words in the languages of a phrase.</summary>
[Flags]
internal enum WordOrder : byte
{
    /// <summary>Not known.</summary>
    None = 0,

    /// <summary>The last noun names the thing: English, German, Dutch, the Nordic languages.</summary>
    HeadLast = 1,

    /// <summary>The first noun names the thing: French, Spanish, Italian, Portuguese, Polish.</summary>
    HeadFirst = 2,

    /// <summary>Compounds are written in one word: German, Dutch, the Nordic languages.</summary>
    Compounds = 4,
}

/// <summary>A phrase of a table and the rows it points to.</summary>
/// <param name="text">The phrase as the table has it.</param>
/// <param name="words">Its folded words.</param>
internal sealed class PhraseEntry(string text, string[] words)
{
    public string Text { get; } = text;

    public string[] Words { get; } = words;

    /// <summary>Numbers of the stems of its words.</summary>
    public int[] Stems { get; init; } = [];

    /// <summary>Rows it points to; more than one makes it ambiguous.</summary>
    public List<int> Rows { get; } = [];

    public WordOrder Order { get; set; }

    /// <summary>Has a small word inside ("boîte en carton"), so that it may reach over a clause's end.</summary>
    public bool Spans { get; set; }
}
