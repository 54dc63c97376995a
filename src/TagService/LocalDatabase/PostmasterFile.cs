using System.Diagnostics;
using System.Globalization;

namespace TagService.LocalDatabase;

/// <summary>
/// The file <c>postmaster.pid</c> that a running server keeps in its data folder, and a killed one leaves there. Lines, as
/// PostgreSQL's src/include/utils/pidfile.h defines them: 1 process id, 2 data folder, 3 start time, 4 port, 5 socket folder,
/// 6 listening address, 7 shared memory key, 8 status.
/// </summary>
internal sealed record PostmasterFile(string Path, int ProcessId, int Port)
{
    public static PostmasterFile? Read(DataFolder folder)
    {
        var path = System.IO.Path.Combine(folder.Data, "postmaster.pid");
        string[] lines;
        try
        {
            lines = File.ReadAllLines(path);
        }
        catch (Exception exception) when (exception is FileNotFoundException or DirectoryNotFoundException)
        {
            return null;
        }

        return lines.Length >= 4
            && int.TryParse(lines[0], CultureInfo.InvariantCulture, out var processId)
            && int.TryParse(lines[3], CultureInfo.InvariantCulture, out var port)
                ? new PostmasterFile(path, processId, port)
                : null;
    }

    /// <summary>
    /// Whether the process is really a server in this data folder: after a restart of the machine the number may belong to
    /// any other program. A server's current folder is its data folder, which Linux lets us compare.
    /// </summary>
    public bool IsServerAlive()
    {
        try
        {
            using var process = Process.GetProcessById(ProcessId);
            if (!process.ProcessName.StartsWith("postgres", StringComparison.OrdinalIgnoreCase))
                return false;
            if (!OperatingSystem.IsLinux())
                return true;
            var seenByProcess = $"/proc/{ProcessId}/cwd/postmaster.pid";
            return File.Exists(seenByProcess) && File.ReadAllText(seenByProcess) == File.ReadAllText(Path);
        }
        catch (Exception exception) when (exception is ArgumentException or InvalidOperationException or IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    /// <summary>Whether the number belongs to some running process, of whatever kind.</summary>
    public bool IsNumberInUse()
    {
        try
        {
            using var process = Process.GetProcessById(ProcessId);
            return !process.HasExited;
        }
        catch (Exception exception) when (exception is ArgumentException or InvalidOperationException)
        {
            return false;
        }
    }
}
