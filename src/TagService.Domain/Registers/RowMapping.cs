namespace TagService.Domain.Registers;

/// <summary>What a row of a register comes to.</summary>
public abstract record RowMapping
{
    private protected RowMapping()
    {
    }

    /// <summary>Values that were not understood or that no table of ours knows; for counting.</summary>
    public required IReadOnlyList<RowProblem> Problems { get; init; }
}

/// <summary>A row that is not taken, with everything that is wrong with it.</summary>
public sealed record RowRefusal : RowMapping
{
    /// <summary>The asset's key, where it could be read.</summary>
    public string? AssetId { get; init; }
}

/// <summary>How serious a problem of a row is.</summary>
public enum RowProblemKind
{
    /// <summary>Not understood; refuses the row.</summary>
    Refuses,

    /// <summary>Not understood; the field is left as it was and the original kept as an attribute.</summary>
    LeftOut,

    /// <summary>Taken over as it stands, but no table knows the word, so that recommendations assume something else.</summary>
    NotRecognised,

    /// <summary>Cut or dropped because of a limit on attributes.</summary>
    Cut,
}

/// <summary>One value of a row that was not taken as it is.</summary>
/// <param name="Kind">What came of it.</param>
/// <param name="Field">Pointer of our field.</param>
/// <param name="Source">Where the value came from; null when nothing feeds the field.</param>
/// <param name="Value">The value, cut to 80 characters.</param>
/// <param name="Detail">What is the matter.</param>
/// <param name="Accepted">What would be accepted.</param>
public sealed record RowProblem(RowProblemKind Kind, string Field, string? Source, string Value, string Detail, string Accepted);

/// <summary>A value for one field of ours.</summary>
/// <param name="Target">The field.</param>
/// <param name="Value">Text, double, int, bool or list of texts; null takes the stored value away.</param>
public readonly record struct MappedValue(MappingTarget Target, object? Value);

/// <summary>What a dry run shows: one field that a row would change.</summary>
/// <param name="Field">Pointer of our field.</param>
/// <param name="Before">As stored; null when not given.</param>
/// <param name="After">As the row has it; null when taken away.</param>
public sealed record FieldChange(string Field, string? Before, string? After);
