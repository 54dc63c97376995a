namespace TagService.Domain.Registers;

/// <summary>Whether a mapping can be used.</summary>
public abstract record MappingCompilation
{
    private MappingCompilation()
    {
    }

    /// <summary>It can.</summary>
    /// <param name="Mapper">Maps rows; safe for several threads.</param>
    public sealed record Usable(RowMapper Mapper) : MappingCompilation;

    /// <summary>It cannot.</summary>
    /// <param name="Issues">All that is wrong, at least one.</param>
    public sealed record Unusable(IReadOnlyList<MappingIssue> Issues) : MappingCompilation;
}

/// <summary>Something wrong with a mapping.</summary>
/// <param name="Pointer">Where in the mapping (RFC 6901), for example <c>/rows/3/unit</c>.</param>
/// <param name="Value">What stands there.</param>
/// <param name="Detail">What is wrong with it.</param>
/// <param name="Accepted">What would be accepted, or the nearest known name.</param>
public sealed record MappingIssue(string Pointer, string? Value, string Detail, string? Accepted);
