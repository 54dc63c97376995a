using TagService.Domain.Identity.Schemes;
using TagService.Domain.Numbering;
using TagService.Storage.Changes;

namespace TagService.Storage.Tables;

/// <summary>A rule by which new identities are numbered, and how far it has come.</summary>
public sealed class NumberingRuleRow : IAudited
{
    /// <summary>The caller's id.</summary>
    public required string Id { get; init; }

    /// <summary>Scheme in small letters: giai-96, grai+.</summary>
    public required string Scheme { get; set; }

    /// <summary>GS1 company prefix.</summary>
    public required string CompanyPrefix { get; set; }

    /// <summary>Filter value.</summary>
    public int Filter { get; set; }

    /// <summary>Asset type of a GRAI, indicator and item reference of an SGTIN; empty for a GIAI.</summary>
    public string ClassReference { get; set; } = "";

    /// <summary>Characters before each number.</summary>
    public string Leading { get; set; } = "";

    /// <summary>Digits numbers are padded to.</summary>
    public int? Digits { get; set; }

    /// <summary>Lowest number the rule can have handed out.</summary>
    public long FirstNumber { get; set; }

    /// <summary>The number that comes next.</summary>
    public long NextNumber { get; set; }

    /// <summary>Last number it may hand out.</summary>
    public long LastNumber { get; set; }

    /// <summary>Highest number handed out; null when none was.</summary>
    public long? HandedOutThrough { get; set; }

    /// <summary>Is it the rule for whoever names none? One at most.</summary>
    public bool IsDefault { get; set; }

    /// <summary>Remark.</summary>
    public string? Note { get; set; }

    /// <summary>When people last changed the rule; handing out numbers does not count.</summary>
    public required DateTimeOffset UpdatedAt { get; set; }

    /// <summary>PostgreSQL's xmin: changes with every update of the row.</summary>
    public uint Version { get; private set; }

    string IAudited.AuditKind => AuditKinds.NumberingRule;

    string IAudited.AuditKey => Id;

    /// <summary>How it makes identities of numbers.</summary>
    public NumberingRule ToRule() => new()
    {
        Scheme = EpcSchemes.Find(Scheme) ?? throw new InvalidOperationException($"The numbering rule {Id} is stored with the scheme {Scheme}, which this program does not know."),
        CompanyPrefix = CompanyPrefix, Filter = Filter, ClassReference = ClassReference, Leading = Leading, Digits = Digits,
    };
}
