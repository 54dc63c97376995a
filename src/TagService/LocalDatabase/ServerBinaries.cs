using System.Globalization;
using System.Text.RegularExpressions;

namespace TagService.LocalDatabase;

/// <summary>The PostgreSQL programs that make and run the private server.</summary>
internal sealed partial record ServerBinaries(string BinFolder, int Major, string Version)
{
    public const string HowToInstall =
        "Install a PostgreSQL server, 15 or later (Debian, Ubuntu: apt-get install postgresql; Fedora: dnf install postgresql-server; "
        + "macOS: brew install postgresql@17; Windows: the installer of postgresql.org), or set LocalDatabase:BinFolder to the folder "
        + "of its programs, or LocalDatabase:DownloadFrom to a Maven repository that can be reached, or configure a connection string.";

    public string Initdb => Program("initdb");

    public string PgCtl => Program("pg_ctl");

    /// <summary>
    /// The programs to use: the configured ones; else installed ones that fit the data, the newest first; else downloaded ones.
    /// </summary>
    public static async Task<ServerBinaries> GetAsync(
        PrivateDatabaseOptions options, DataFolder folder, ServerAccount account, Action<string> say, CancellationToken cancellationToken)
    {
        var dataMajor = folder.DataMajor;
        if (dataMajor < PrivateDatabase.OldestMajor)
            throw WrongMajor(folder, dataMajor.Value, $"The service needs PostgreSQL {PrivateDatabase.OldestMajor} or later.");

        if (!string.IsNullOrWhiteSpace(options.BinFolder))
            return await ConfiguredAsync(options.BinFolder, folder, account, dataMajor, cancellationToken);

        var installed = new List<ServerBinaries>();
        foreach (var bin in options.FindInstalled().Concat(ServerDownload.Folders(folder)))
        {
            if (await ReadAsync(bin, account, cancellationToken) is { } found && found.Major >= PrivateDatabase.OldestMajor)
                installed.Add(found);
        }

        var fitting = installed.Where(found => dataMajor is null || found.Major == dataMajor).MaxBy(found => found.Major);
        if (fitting is not null)
            return fitting;

        try
        {
            var bin = await ServerDownload.RunAsync(options.DownloadFrom, folder, dataMajor, say, cancellationToken);
            return await ReadAsync(bin, account, cancellationToken)
                ?? throw new StartupProblemException($"The PostgreSQL programs downloaded to {bin} do not run on this machine.", HowToInstall);
        }
        catch (DownloadFailedException failure) when (dataMajor is not null && installed.Count > 0)
        {
            var majors = string.Join(", ", installed.Select(found => found.Major).Distinct().Order());
            throw WrongMajor(folder, dataMajor.Value, $"Installed here is {majors}, and {dataMajor} cannot be downloaded: {failure.Message}");
        }
        catch (DownloadFailedException failure)
        {
            throw new StartupProblemException(
                $"No PostgreSQL server is installed, and none can be downloaded from {options.DownloadFrom}: {failure.Message}", HowToInstall);
        }
    }

    private static async Task<ServerBinaries> ConfiguredAsync(
        string bin, DataFolder folder, ServerAccount account, int? dataMajor, CancellationToken cancellationToken)
    {
        var configured = await ReadAsync(bin, account, cancellationToken)
            ?? throw new StartupProblemException($"LocalDatabase:BinFolder is {bin}, and there are no working PostgreSQL server programs (initdb, pg_ctl, postgres) in it.", HowToInstall);
        if (configured.Major < PrivateDatabase.OldestMajor)
            throw new StartupProblemException($"LocalDatabase:BinFolder is {bin}, which is PostgreSQL {configured.Major}; the service needs {PrivateDatabase.OldestMajor} or later.", HowToInstall);
        if (dataMajor is not null && configured.Major != dataMajor)
            throw WrongMajor(folder, dataMajor.Value, $"LocalDatabase:BinFolder ({bin}) is PostgreSQL {configured.Major}.");
        return configured;
    }

    /// <summary>Asks the programs in a folder for their version; null if they are not complete or do not run.</summary>
    public static async Task<ServerBinaries?> ReadAsync(string bin, ServerAccount account, CancellationToken cancellationToken)
    {
        var candidate = new ServerBinaries(bin, 0, "");
        if (!File.Exists(candidate.Initdb) || !File.Exists(candidate.PgCtl) || !File.Exists(candidate.Program("postgres")))
            return null;
        var result = await account.RunAsync([candidate.Program("postgres"), "--version"], cancellationToken);
        var match = VersionPattern().Match(result.Output);
        return result.Succeeded && match.Success
            ? candidate with { Major = int.Parse(match.Groups["major"].Value, CultureInfo.InvariantCulture), Version = match.Groups["version"].Value }
            : null;
    }

    private static StartupProblemException WrongMajor(DataFolder folder, int dataMajor, string what) => new(
        $"The data in {folder.Data} were made by PostgreSQL {dataMajor}, and each major version opens only its own. {what}",
        (dataMajor < PrivateDatabase.OldestMajor ? "" : $"Install the server of PostgreSQL {dataMajor}. ")
        + $"To change over, write the data out with pg_dump of PostgreSQL {dataMajor}, move {folder.Root} away, start once and read them in again. "
        + "Or set LocalDatabase:Folder to another folder to begin with an empty database.");

    private string Program(string name) => Path.Combine(BinFolder, OperatingSystem.IsWindows() ? name + ".exe" : name);

    // "postgres (PostgreSQL) 15.18 (Debian 15.18-0+deb12u1)", "postgres (PostgreSQL) 18beta1"
    [GeneratedRegex(@"\(PostgreSQL\) (?<version>(?<major>\d+)\S*)")]
    private static partial Regex VersionPattern();
}
