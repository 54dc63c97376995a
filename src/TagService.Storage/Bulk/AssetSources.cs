namespace TagService.Storage.Bulk;

/// <summary>Names of where assets come from that are no register sources.</summary>
public static class AssetSources
{
    /// <summary>Pushed by the asset system through the interface.</summary>
    public const string Push = "push";

    /// <summary>The invented demo fleet.</summary>
    public const string Demo = "demo";

    /// <summary>Known only by what was recorded of its tags.</summary>
    public const string Attachments = "attachments";

    /// <summary>Written by a program version that kept no source.</summary>
    public const string Unknown = "unknown";
}
