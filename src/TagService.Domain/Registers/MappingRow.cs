namespace TagService.Domain.Registers;

/// <summary>Which value of a register feeds one field of ours, and how it is read.</summary>
public sealed record MappingRow
{
    /// <summary>Unit that stands for "this is a date", for targets that take one.</summary>
    public const string DateUnit = "date";

    /// <summary>Pointer of our field, one of <see cref="MappingTargets"/> or <c>/attributes/name</c>.</summary>
    public required string Target { get; init; }

    /// <summary>Column name, or JSON pointer (RFC 6901) into the row's object; null when the default is meant for every row.</summary>
    public string? Source { get; init; }

    /// <summary>Unit of values that carry none, an id or name of <see cref="RegisterUnits"/>, or <c>date</c>; null means our own unit.</summary>
    public string? Unit { get; init; }

    /// <summary>Decimal mark of numbers in text.</summary>
    public DecimalMark DecimalMark { get; init; }

    /// <summary>Order of day, month and year of dates in text.</summary>
    public DateOrder DateOrder { get; init; }

    /// <summary>Currency of amounts that carry none (ISO 4217).</summary>
    public string? Currency { get; init; }

    /// <summary>Characters that part the items of a list in text; null means comma, semicolon, slash and bar.</summary>
    public string? ListSeparators { get; init; }

    /// <summary>Register's words to ours, tried before anything else; whole cells, without regard to case, accents and outer blanks.</summary>
    public IReadOnlyDictionary<string, string> ValueTable { get; init; } = new Dictionary<string, string>();

    /// <summary>Taken when the column is absent or its cell is empty; in our own unit and words.</summary>
    public string? Default { get; init; }

    /// <summary>An empty cell takes away what is stored; otherwise an empty cell says nothing.</summary>
    public bool EmptyClears { get; init; }

    /// <summary>What becomes of a row of which this value is not understood.</summary>
    public WhenNotUnderstood WhenNotUnderstood { get; init; }
}
