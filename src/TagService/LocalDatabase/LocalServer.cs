using System.Net;
using System.Net.Sockets;

namespace TagService.LocalDatabase;

/// <summary>Starts and stops the server of one data folder with <c>pg_ctl</c>.</summary>
internal sealed class LocalServer(DataFolder folder, ServerAccount account, ServerBinaries binaries)
{
    // Recovery after a crash is part of the start and may take minutes.
    private const int StartSeconds = 300;
    private const int StopSeconds = 60;
    private const int Attempts = 3;
    private const long LogLimitBytes = 4 << 20;

    public DataFolder Folder => folder;

    /// <summary>
    /// Starts the server and waits until it answers. <c>pg_ctl</c> makes it the leader of a session of its own, so that
    /// Ctrl-C at the terminal reaches the service first, and the database after the service has finished.
    /// </summary>
    /// <returns>The port.</returns>
    public async Task<int> StartAsync(int? wantedPort, CancellationToken cancellationToken)
    {
        await PrepareLogAsync(cancellationToken);
        for (var attempt = 1; ; attempt++)
        {
            var port = wantedPort ?? FreePort();
            if (!IsFree(port))
            {
                throw new StartupProblemException(
                    $"Port {port} on 127.0.0.1, which LocalDatabase:Port asks for, is taken by another program.",
                    "Set LocalDatabase:Port to a free port, or leave it out: then a free one is picked.");
            }

            var logStart = new FileInfo(folder.Log).Length;
            var result = await account.RunAsync(
                [
                    binaries.PgCtl, "start", "-D", folder.Data, "-l", folder.Log, "-w", "-t", $"{StartSeconds}",
                    "-o", $"-c port={port} -c listen_addresses=127.0.0.1 -c unix_socket_directories=",
                ],
                cancellationToken);
            if (result.Succeeded)
                return port;

            var log = ReadLog(logStart);
            // Another program can take the port between our look and the server's start.
            if (wantedPort is null && attempt < Attempts && log.Contains("could not bind", StringComparison.Ordinal))
                continue;
            throw new StartupProblemException(
                $"The PostgreSQL server of {binaries.BinFolder} did not start on {folder.Data}. Its log ends: {LastLines(log.Length > 0 ? log : result.Output)}",
                $"Put right what it names; the whole log is {folder.Log}. The data are untouched: start again afterwards.");
        }
    }

    /// <summary>Stops the server if it runs, ending open sessions; false if it still runs afterwards. Never throws.</summary>
    public async Task<bool> StopAsync()
    {
        if (PostmasterFile.Read(folder)?.IsServerAlive() != true)
            return true;
        foreach (var mode in (string[])["fast", "immediate"])
        {
            await account.RunAsync([binaries.PgCtl, "stop", "-D", folder.Data, "-m", mode, "-w", "-t", $"{StopSeconds}"], CancellationToken.None);
            if (PostmasterFile.Read(folder)?.IsServerAlive() != true)
                return true;
        }

        return false;
    }

    public static string LastLines(string text) =>
        string.Join(" / ", text.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).TakeLast(6));

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private static bool IsFree(int port)
    {
        try
        {
            using var listener = new TcpListener(IPAddress.Loopback, port);
            listener.Start();
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }

    private async Task PrepareLogAsync(CancellationToken cancellationToken)
    {
        if (File.Exists(folder.Log) && new FileInfo(folder.Log).Length > LogLimitBytes)
            File.Move(folder.Log, folder.Log + ".old", overwrite: true);
        DataFolder.CreatePrivateFile(folder.Log, FileMode.OpenOrCreate);
        await account.GiveAsync(folder.Log, cancellationToken);
    }

    private string ReadLog(long from)
    {
        using var stream = new FileStream(folder.Log, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        stream.Seek(from, SeekOrigin.Begin);
        return new StreamReader(stream).ReadToEnd();
    }
}
