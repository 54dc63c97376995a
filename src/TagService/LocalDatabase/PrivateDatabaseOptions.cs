namespace TagService.LocalDatabase;

/// <summary>Configuration section <c>LocalDatabase</c>: where the private database lives. Every setting may be left out.</summary>
public sealed record PrivateDatabaseOptions
{
    public const string Section = "LocalDatabase";

    /// <summary>Where data, password and log are kept; left out, the account's own data folder (as root /var/lib/tagservice).</summary>
    public string? Folder { get; init; }

    /// <summary>Folder of the PostgreSQL programs <c>initdb</c>, <c>pg_ctl</c> and <c>postgres</c>; left out, they are looked for, then downloaded.</summary>
    public string? BinFolder { get; init; }

    /// <summary>Maven repository from which the server is downloaded when none is installed.</summary>
    public string DownloadFrom { get; init; } = "https://repo1.maven.org/maven2";

    /// <summary>Port on 127.0.0.1; left out, a free one is picked at each start.</summary>
    public int? Port { get; init; }

    /// <summary>How installed servers are found; not configuration, but lets the tests stand for a machine that has none.</summary>
    internal Func<IEnumerable<string>> FindInstalled { get; init; } = InstalledServers.Folders;
}
