namespace TagService.Storage.Changes;

/// <summary>A row whose every change is written down, in the transaction of the change.</summary>
public interface IAudited
{
    /// <summary>What kind of thing it is, kebab-case as in the paths of the interface: <c>location</c>, <c>attachment</c>.</summary>
    string AuditKind { get; }

    /// <summary>Its id as the interface shows it. Known before the row is saved.</summary>
    string AuditKey { get; }
}
