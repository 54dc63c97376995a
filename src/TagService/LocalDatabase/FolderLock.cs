using System.Globalization;

namespace TagService.LocalDatabase;

/// <summary>
/// Held by the process that owns the folder, as a file kept open without sharing: the operating system lets go of it when
/// the process ends in whatever way, so it is never stale. The process number beside it only serves the message.
/// </summary>
internal sealed class FolderLock : IDisposable
{
    private readonly FileStream file;

    private FolderLock(FileStream file) => this.file = file;

    public static FolderLock Take(DataFolder folder)
    {
        FileStream file;
        try
        {
            file = new FileStream(folder.Lock, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (UnauthorizedAccessException exception)
        {
            throw new StartupProblemException(
                $"The folder {folder.Root} belongs to another account: {exception.Message}",
                "Start the service under that account, or set LocalDatabase:Folder to another folder.");
        }
        catch (IOException)
        {
            throw new StartupProblemException(
                $"The private database in {folder.Root} is in use by another running TagService{Owner(folder)}.",
                "Stop that one first, or set LocalDatabase:Folder to another folder.");
        }

        File.WriteAllText(folder.OwnerNumber, Environment.ProcessId.ToString(CultureInfo.InvariantCulture));
        return new FolderLock(file);
    }

    public void Dispose() => file.Dispose();

    private static string Owner(DataFolder folder) =>
        File.Exists(folder.OwnerNumber) ? $" (process {File.ReadAllText(folder.OwnerNumber)})" : "";
}
