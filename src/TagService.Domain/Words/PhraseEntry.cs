namespace TagService.Domain.Words;

/// <summary>Languages of a phrase.</summary>
[Flags]
internal enum Languages : ushort
{
    /// <summary>Not known.</summary>
    None = 0,
    English = 1,
    German = 2,
    Dutch = 4,
    Nordic = 8,
    French = 16,
    Spanish = 32,
    Italian = 64,
    Portuguese = 128,
    Polish = 256,

    /// <summary>The last noun names the thing.</summary>
    HeadLast = English | German | Dutch | Nordic,

    /// <summary>Compounds are written in one word.</summary>
    Compounding = German | Dutch | Nordic,

    /// <summary>Every language: words of a list that mixes them.</summary>
    Any = HeadLast | French | Spanish | Italian | Portuguese | Polish,
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

    public Languages Languages { get; set; }

    /// <summary>Has a small word inside ("boîte en carton"), so that it may reach over a clause's end.</summary>
    public bool Spans { get; set; }
}
