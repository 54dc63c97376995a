namespace TagService.Storage.Changes;

/// <summary>Kinds of items whose changes are written down: what <see cref="IAudited.AuditKind"/> may say.</summary>
public static class AuditKinds
{
    /// <summary>An own tag class, or figures laid over a built-in one.</summary>
    public const string TagClass = "tag-class";

    /// <summary>A location.</summary>
    public const string Location = "location";

    /// <summary>A read point.</summary>
    public const string ReadPoint = "read-point";

    /// <summary>A tag batch.</summary>
    public const string TagBatch = "tag-batch";

    /// <summary>A numbering rule.</summary>
    public const string NumberingRule = "numbering-rule";

    /// <summary>An attachment.</summary>
    public const string Attachment = "attachment";

    /// <summary>An identity taken for a tag that is still to be fitted.</summary>
    public const string ReservedIdentity = "reserved-identity";

    /// <summary>An asset of the register's mirror.</summary>
    public const string Asset = "asset";

    /// <summary>A register that assets are read from.</summary>
    public const string RegisterSource = "register-source";

    /// <summary>All of them, in alphabetical order. A new audited table adds its kind here; a test compares.</summary>
    public static IReadOnlyList<string> All { get; } = [Asset, Attachment, Location, NumberingRule, ReadPoint, RegisterSource, ReservedIdentity, TagBatch, TagClass];
}
