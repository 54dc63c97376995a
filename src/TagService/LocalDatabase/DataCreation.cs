using System.Security.Cryptography;

namespace TagService.LocalDatabase;

/// <summary>Makes the database cluster at the first start.</summary>
internal static class DataCreation
{
    public static async Task RunAsync(DataFolder folder, ServerAccount account, ServerBinaries binaries, CancellationToken cancellationToken)
    {
        // What an interrupted first start left behind was never in use.
        if (Directory.Exists(folder.UnfinishedData))
            Directory.Delete(folder.UnfinishedData, recursive: true);
        DataFolder.CreatePrivateFolder(folder.UnfinishedData);
        await account.GiveAsync(folder.UnfinishedData, cancellationToken);

        File.Delete(folder.Password);
        DataFolder.CreatePrivateFile(folder.Password, FileMode.CreateNew, RandomNumberGenerator.GetHexString(40, lowercase: true) + "\n");
        await account.GiveAsync(folder.Password, cancellationToken);

        var result = await account.RunAsync(
            [
                binaries.Initdb, "-D", folder.UnfinishedData, "-U", DataFolder.User, $"--pwfile={folder.Password}",
                "--auth=scram-sha-256", "--encoding=UTF8", "--locale=C", "--no-instructions",
            ],
            cancellationToken);
        if (!result.Succeeded)
        {
            throw new StartupProblemException(
                $"The private database could not be created in {folder.Root}; initdb of {binaries.BinFolder} said: {LocalServer.LastLines(result.Output)}",
                "Put right what it names (often disk space or access rights), or set LocalDatabase:Folder or LocalDatabase:BinFolder to others; then start again.");
        }

        Directory.Move(folder.UnfinishedData, folder.Data);
    }
}
