using Npgsql;
using TagService.LocalDatabase;
using TagService.Service.Tests.LocalDatabase;
using Xunit.Abstractions;
using Xunit.Sdk;

namespace TagService.Service.Tests.Database;

/// <summary>
/// One real PostgreSQL server for all tests of the collection: in a container when a container engine answers and has or
/// can pull the image, else the service's own private server in a temporary folder. Says on the console which it is.
/// </summary>
public sealed class TestDatabase(IMessageSink messages) : IAsyncLifetime
{
    public const string Collection = "Database";

    private readonly Stack<Func<ValueTask>> closing = new();
    private string serverConnectionString = "";

    public bool UsesContainer { get; private set; }

    public string Description { get; private set; } = "";

    public async Task InitializeAsync()
    {
        var start = await ContainerServer.TryStartAsync();
        if (start.Container is { } container)
        {
            closing.Push(container.DisposeAsync);
            serverConnectionString = container.GetConnectionString();
            UsesContainer = true;
            Description = $"PostgreSQL in a container ({start.Message})";
        }
        else
        {
            await StartLocalAsync(start.Message);
        }

        messages.OnMessage(new DiagnosticMessage($"The tests use {Description}"));
    }

    /// <summary>Makes an empty database (dropping one of that name), or a copy of <paramref name="template"/>, and returns its connection string.</summary>
    public async Task<string> CreateDatabaseAsync(string name, string? template = null)
    {
        await using var connection = new NpgsqlConnection(
            new NpgsqlConnectionStringBuilder(serverConnectionString) { Database = "postgres", Pooling = false }.ConnectionString);
        await connection.OpenAsync();
        await ExecuteAsync(connection, $"drop database if exists {Quoted(name)} with (force)");
        await ExecuteAsync(connection, $"create database {Quoted(name)} template {Quoted(template ?? "template0")}");
        return new NpgsqlConnectionStringBuilder(serverConnectionString) { Database = name }.ConnectionString;
    }

    public async Task DisposeAsync()
    {
        NpgsqlConnection.ClearAllPools();
        while (closing.TryPop(out var close))
            await close();
    }

    private async Task StartLocalAsync(string whyNoContainer)
    {
        var folder = new TemporaryFolder();
        closing.Push(() =>
        {
            folder.Dispose();
            return ValueTask.CompletedTask;
        });
        try
        {
            var options = new PrivateDatabaseOptions { Folder = folder.Below("database"), BinFolder = await ServerPrograms.BinFolderAsync() };
            var local = await PrivateDatabase.OpenAsync(options, _ => { }, CancellationToken.None);
            closing.Push(local.DisposeAsync);
            serverConnectionString = local.ConnectionString;
            Description = $"{local.Description} (no container: {whyNoContainer})";
        }
        catch (Exception exception) when (exception is StartupProblemException or InvalidOperationException)
        {
            await DisposeAsync();
            var remedy = (exception as StartupProblemException)?.Remedy;
            throw new InvalidOperationException(
                $"There is no database for the tests. No container: {whyNoContainer}. No local server: {exception.Message} {remedy} "
                + "Or start a container engine (Docker).");
        }
    }

    private static string Quoted(string name) => new NpgsqlCommandBuilder().QuoteIdentifier(name);

    private static async Task ExecuteAsync(NpgsqlConnection connection, string sql)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync();
    }
}

[CollectionDefinition(TestDatabase.Collection)]
public sealed class TestDatabaseDefinition : ICollectionFixture<TestDatabase>;
