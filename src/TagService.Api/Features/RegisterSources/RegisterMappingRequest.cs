using System.ComponentModel.DataAnnotations;
using TagService.Domain.Registers;

namespace TagService.Api.Features.RegisterSources;

/// <summary>How the rows of a register become assets.</summary>
public sealed record RegisterMappingRequest
{
    /// <summary>One row a field; a row with the target /assetId is needed.</summary>
    [MinLength(1), MaxLength(RegisterMapping.MostRows)]
    public required IReadOnlyList<MappingRowRequest> Rows { get; init; }

    /// <summary>Columns that are not kept at all, for example personal data; every other column that feeds no field goes to attributes.</summary>
    [MaxLength(500)]
    public IReadOnlyList<string>? NotKept { get; init; }

    /// <summary>Texts that count as an empty cell beside blanks, as whole cells without regard to case; if absent -, --, n/a, #n/a, null and k.a.</summary>
    [MaxLength(100)]
    public IReadOnlyList<string>? EmptyTexts { get; init; }
}

/// <summary>Which value of a register feeds one field, and how it is read.</summary>
public sealed record MappingRowRequest
{
    /// <summary>Pointer of the field: /assetId, /location, /tag, /retired, a field of the asset record such as /surface/material, or /attributes/name.</summary>
    [MinLength(1), MaxLength(500)]
    public required string Target { get; init; }

    /// <summary>Column name, or JSON pointer (RFC 6901) into the row's object; absent when the default is meant for every row.</summary>
    [MinLength(1), MaxLength(500)]
    public string? Source { get; init; }

    /// <summary>Unit of values that carry none, for example mm, in, °F; date for targets that take one. Absent means the field's own unit.</summary>
    [MinLength(1), MaxLength(40)]
    public string? Unit { get; init; }

    /// <summary>Decimal mark of numbers in text; unambiguous if absent.</summary>
    public DecimalMark DecimalMark { get; init; }

    /// <summary>Order of day, month and year of dates in text; unambiguous if absent.</summary>
    public DateOrder DateOrder { get; init; }

    /// <summary>Currency of amounts that carry none (ISO 4217).</summary>
    [MaxLength(3)]
    public string? Currency { get; init; }

    /// <summary>Characters that part the items of a list in text; comma, semicolon, slash and bar if absent.</summary>
    [MaxLength(20)]
    public string? ListSeparators { get; init; }

    /// <summary>The register's words to ours, tried before anything else; whole cells, without regard to case, accents and outer blanks.</summary>
    [MaxLength(2000)]
    public IReadOnlyDictionary<string, string>? ValueTable { get; init; }

    /// <summary>Taken when the column is absent or its cell is empty; in our own unit and words.</summary>
    [MaxLength(4000)]
    public string? Default { get; init; }

    /// <summary>An empty cell takes away what is stored; otherwise an empty cell says nothing.</summary>
    public bool EmptyClears { get; init; }

    /// <summary>What becomes of a row of which this value is not understood; refuse-row if absent.</summary>
    public WhenNotUnderstood WhenNotUnderstood { get; init; }
}
