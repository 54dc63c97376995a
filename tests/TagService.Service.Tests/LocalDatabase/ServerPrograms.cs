using TagService.LocalDatabase;

namespace TagService.Service.Tests.LocalDatabase;

/// <summary>
/// The PostgreSQL programs that the tests of the private database run: the installed ones; on a machine without, ones that
/// are downloaded once and kept in the temporary folder for the next test run.
/// </summary>
internal static class ServerPrograms
{
    private static readonly Lazy<Task<string>> Found = new(FindAsync);

    public static Task<string> BinFolderAsync() => Found.Value;

    private static async Task<string> FindAsync()
    {
        foreach (var bin in InstalledServers.Folders())
        {
            if (await ServerBinaries.ReadAsync(bin, ServerAccount.Own, CancellationToken.None) is { Major: >= PrivateDatabase.OldestMajor })
                return bin;
        }

        var kept = Path.Combine(Path.GetTempPath(), $"tagservice-test-programs-{Environment.UserName}");
        var folder = DataFolder.Prepare(kept);
        TemporaryFolder.SetMode(kept, "755"); // also for the account under which the server runs
        try
        {
            return ServerDownload.Folders(folder).FirstOrDefault()
                ?? await ServerDownload.RunAsync(new PrivateDatabaseOptions().DownloadFrom, folder, null, _ => { }, CancellationToken.None);
        }
        catch (DownloadFailedException failure)
        {
            throw new InvalidOperationException(
                $"The tests need a PostgreSQL server, and none can be downloaded ({failure.Message}). {ServerBinaries.HowToInstall}");
        }
    }
}
