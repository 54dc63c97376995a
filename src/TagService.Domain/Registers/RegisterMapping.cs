namespace TagService.Domain.Registers;

/// <summary>How the rows of one register become assets. Data: it is stored, shown and edited; <see cref="Compile"/> makes it usable.</summary>
public sealed record RegisterMapping
{
    /// <summary>Most rows of a mapping.</summary>
    public const int MostRows = 200;

    /// <summary>One row a field.</summary>
    public required IReadOnlyList<MappingRow> Rows { get; init; }

    /// <summary>Sources that are not kept at all, for example personal data; every other column that feeds no field goes to <c>attributes</c>.</summary>
    public IReadOnlyList<string> NotKept { get; init; } = [];

    /// <summary>Texts that count as an empty cell beside blanks, compared as whole cells without regard to case.</summary>
    public IReadOnlyList<string> EmptyTexts { get; init; } = ["-", "--", "n/a", "#n/a", "null", "k.a."];

    /// <summary>The mapping ready for rows, or all that is wrong with it.</summary>
    public MappingCompilation Compile()
    {
        var check = new MappingCheck(this);
        return check.Issues.Count > 0
            ? new MappingCompilation.Unusable(check.Issues)
            : new MappingCompilation.Usable(new RowMapper(this, check.Rows));
    }
}
