namespace TagService.Storage.Corrections;

/// <summary>What a register should be told.</summary>
public enum CorrectionKind
{
    /// <summary>The register's tag column is empty, and a tag is on the asset.</summary>
    Attach,

    /// <summary>The column names another tag than those on the asset.</summary>
    Replace,

    /// <summary>The column names a tag whose attachment on this asset has ended, and none is on it.</summary>
    End,

    /// <summary>The column holds text that is no identity of a tag.</summary>
    UnreadableTag,

    /// <summary>The column names a tag that is on another asset.</summary>
    Conflict,
}
