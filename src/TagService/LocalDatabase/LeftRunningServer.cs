using Npgsql;

namespace TagService.LocalDatabase;

/// <summary>
/// What to do about a server that outlived its owner (who was killed, or the machine lost power): one that answers is taken
/// over, one that does not is stopped in order, and a mere left-over file is cleared away. Nothing of it loses data.
/// </summary>
internal static class LeftRunningServer
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    /// <summary>The port of the server taken over, or null if there is none running and a new one can be started.</summary>
    public static async Task<int?> TakeOverAsync(LocalServer server, int? wantedPort, CancellationToken cancellationToken)
    {
        var file = PostmasterFile.Read(server.Folder);
        if (file is null)
            return null;

        if (!file.IsServerAlive())
        {
            // PostgreSQL clears the file away itself, except where the number now belongs to another program of the same account.
            if (file.IsNumberInUse())
                File.Delete(file.Path);
            return null;
        }

        var answers = await AnswersAsync(server, file, cancellationToken);
        if (answers && (wantedPort is null || wantedPort == file.Port))
            return file.Port;
        if (!file.IsServerAlive())
            return null;

        // Only Linux tells for certain that the process is this folder's server; elsewhere its answer does.
        if ((answers || OperatingSystem.IsLinux()) && await server.StopAsync())
            return null;
        throw new StartupProblemException(
            $"A PostgreSQL server (process {file.ProcessId}) that an earlier start left in {server.Folder.Data} neither answers nor stops.",
            "End that process, then start again; the data are kept.");
    }

    private static async Task<bool> AnswersAsync(LocalServer server, PostmasterFile file, CancellationToken cancellationToken)
    {
        var started = TimeProvider.System.GetTimestamp();
        while (true)
        {
            try
            {
                await using var connection = new NpgsqlConnection(server.Folder.ConnectionString(file.Port, "postgres", pooled: false));
                await connection.OpenAsync(cancellationToken);
                return true;
            }
            catch (PostgresException exception) when (exception.SqlState == PostgresErrorCodes.CannotConnectNow
                && file.IsServerAlive() && TimeProvider.System.GetElapsedTime(started) < Patience)
            {
                // Still recovering after a crash, or already shutting down.
                await Task.Delay(TimeSpan.FromMilliseconds(200), cancellationToken);
            }
            catch (NpgsqlException)
            {
                return false;
            }
        }
    }
}
