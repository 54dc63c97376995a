using TagService.Storage.Changes;

namespace TagService.Storage.Tables;

/// <summary>Tags bought together.</summary>
public sealed class TagBatchRow : IAudited
{
    /// <summary>The caller's id.</summary>
    public required string Id { get; init; }

    /// <summary>Tag class; no foreign key, as built-in classes are in no table.</summary>
    public required string TagClassId { get; set; }

    /// <summary>Lot as printed on the delivery.</summary>
    public string? SupplierLot { get; set; }

    /// <summary>Tags bought.</summary>
    public int? Quantity { get; set; }

    /// <summary>Price of one tag.</summary>
    public decimal? Price { get; set; }

    /// <summary>ISO 4217 code of the price.</summary>
    public string? Currency { get; set; }

    /// <summary>Day of the delivery.</summary>
    public DateOnly? ReceivedOn { get; set; }

    /// <summary>Scheme in which the tags came encoded, in the user's words.</summary>
    public string? EpcScheme { get; set; }

    /// <summary>Company prefix or first digits of the identities they came with, in the user's words.</summary>
    public string? EpcPrefix { get; set; }

    /// <summary>Remark.</summary>
    public string? Note { get; set; }

    /// <summary>When this row was last written.</summary>
    public required DateTimeOffset UpdatedAt { get; set; }

    /// <summary>PostgreSQL's xmin: changes with every update of the row.</summary>
    public uint Version { get; private set; }

    string IAudited.AuditKind => AuditKinds.TagBatch;

    string IAudited.AuditKey => Id;
}
