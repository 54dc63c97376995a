using System.Globalization;
using MysticMind.PostgresEmbed;

namespace TagService.LocalDatabase;

internal sealed class DownloadFailedException(string message, Exception inner) : Exception(message, inner);

/// <summary>
/// Server programs for machines that have none. The package fetches, checks (SHA-256) and unpacks them; making and running
/// the database is ours, because the package's own way has no password and does not work as root.
/// </summary>
internal static class ServerDownload
{
    /// <summary>The major version to download where no data ask for another.</summary>
    private const int DefaultMajor = 17;

    /// <summary>What was downloaded before, so that a later start needs no network.</summary>
    public static IEnumerable<string> Folders(DataFolder folder) =>
        Directory.Exists(folder.Programs)
            ? Directory.EnumerateDirectories(folder.Programs, "postgres-*").Select(install => Path.Combine(install, "bin"))
            : [];

    /// <summary>Downloads and unpacks; returns the folder of the programs.</summary>
    public static async Task<string> RunAsync(
        string repository, DataFolder folder, int? dataMajor, Action<string> say, CancellationToken cancellationToken)
    {
        var major = (dataMajor ?? DefaultMajor).ToString(CultureInfo.InvariantCulture);
        say($"Database: no fitting PostgreSQL server is installed; downloading PostgreSQL {major} from {repository} (once).");
        try
        {
            await using var package = new PgServer(new PgServerOptions
            {
                PgVersion = major,
                MavenRepo = repository,
                BinariesDir = folder.Programs,
                DbDir = folder.Programs,
                DownloadRetryCount = 1,
            });
            await package.InstallAsync(cancellationToken);
            RemoveArchives(folder);
            await LetAllReadAsync(folder, cancellationToken);
            return package.PgBinDir;
        }
        catch (Exception exception) when (exception is not OperationCanceledException || !cancellationToken.IsCancellationRequested)
        {
            // Name resolution, HTTP, checksum, archive, platform: whatever it was, the person at the console gets the innermost reason.
            throw new DownloadFailedException(exception.GetBaseException().Message, exception);
        }
    }

    /// <summary>Also with a strict umask: the account that runs the programs may be another one.</summary>
    private static async Task LetAllReadAsync(DataFolder folder, CancellationToken cancellationToken)
    {
        if (!OperatingSystem.IsWindows())
            await Command.RunAsync(["chmod", "-R", "a+rX", folder.Programs], cancellationToken);
    }

    private static void RemoveArchives(DataFolder folder)
    {
        foreach (var archive in Directory.EnumerateFiles(folder.Programs).Where(file => file.EndsWith(".jar", StringComparison.Ordinal) || file.EndsWith(".txz", StringComparison.Ordinal)))
            File.Delete(archive);
    }
}
