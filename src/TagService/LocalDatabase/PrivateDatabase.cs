using Npgsql;

namespace TagService.LocalDatabase;

/// <summary>
/// The PostgreSQL server that belongs to this process alone, used when no connection string is configured. It listens on
/// loopback only, keeps its data between runs, and is stopped when this object is disposed.
/// </summary>
public sealed class PrivateDatabase : IAsyncDisposable
{
    /// <summary>The oldest major version of PostgreSQL that the service supports.</summary>
    public const int OldestMajor = 15;

    private const string DatabaseName = "tagservice";

    private readonly LocalServer server;
    private readonly FolderLock folderLock;

    private PrivateDatabase(LocalServer server, FolderLock folderLock, string connectionString, string description)
    {
        this.server = server;
        this.folderLock = folderLock;
        ConnectionString = connectionString;
        Description = description;
    }

    public string ConnectionString { get; }

    /// <summary>One line for people: which server, where its data are, where it listens.</summary>
    public string Description { get; }

    /// <summary>Starts the private server, or takes over one that an earlier owner left running, and tells <paramref name="say"/> which.</summary>
    /// <exception cref="StartupProblemException">An expected reason why it cannot start, with what to do about it.</exception>
    public static async Task<PrivateDatabase> OpenAsync(PrivateDatabaseOptions options, Action<string> say, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(say);
        var folder = DataFolder.Prepare(options.Folder);
        var folderLock = FolderLock.Take(folder);
        LocalServer? server = null;
        try
        {
            var account = await ServerAccount.ChooseAsync(folder, cancellationToken);
            var binaries = await ServerBinaries.GetAsync(options, folder, account, say, cancellationToken);
            server = new LocalServer(folder, account, binaries);

            var created = !folder.HasData;
            if (created)
                await DataCreation.RunAsync(folder, account, binaries, cancellationToken);

            var takenOver = await LeftRunningServer.TakeOverAsync(server, options.Port, cancellationToken);
            var port = takenOver ?? await server.StartAsync(options.Port, cancellationToken);
            await EnsureDatabaseAsync(server, port, cancellationToken);

            var description = $"private PostgreSQL {binaries.Version} on 127.0.0.1:{port}, data in {folder.Root}";
            var how = created ? "created now" : takenOver is null ? "kept from the last run" : "found running and taken over";
            var runAs = account.Name is null ? "" : $", run under the account {account.Name}";
            say($"Database: {description} ({how}), programs from {binaries.BinFolder}{runAs}.");
            return new PrivateDatabase(server, folderLock, folder.ConnectionString(port, DatabaseName), description);
        }
        catch
        {
            if (server is not null)
                await server.StopAsync();
            folderLock.Dispose();
            throw;
        }
    }

    public async ValueTask DisposeAsync()
    {
        await server.StopAsync();
        folderLock.Dispose();
    }

    private static async Task EnsureDatabaseAsync(LocalServer server, int port, CancellationToken cancellationToken)
    {
        await using var connection = new NpgsqlConnection(server.Folder.ConnectionString(port, "postgres", pooled: false));
        await connection.OpenAsync(cancellationToken);
        await using var command = new NpgsqlCommand($"select 1 from pg_database where datname = '{DatabaseName}'", connection);
        if (await command.ExecuteScalarAsync(cancellationToken) is not null)
            return;

        command.CommandText = $"create database {DatabaseName}";
        await command.ExecuteNonQueryAsync(cancellationToken);
    }
}
