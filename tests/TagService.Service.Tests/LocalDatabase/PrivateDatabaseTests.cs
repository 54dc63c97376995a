using System.Net.NetworkInformation;
using Npgsql;

namespace TagService.Service.Tests.LocalDatabase;

public sealed class PrivateDatabaseTests : LocalDatabaseTest
{
    [Fact]
    public async Task Open_NewFolder_MakesAUtf8DatabaseBehindAPassword()
    {
        await using var database = await OpenAsync();

        Assert.Equal("tagservice", await AskAsync<string>(database.ConnectionString, "select current_database()::text"));
        Assert.Equal("UTF8", await AskAsync<string>(database.ConnectionString, "show server_encoding"));
        Assert.Equal("C", await AskAsync<string>(database.ConnectionString, "select datcollate from pg_database where datname = 'tagservice'"));
        Assert.Equal(
            "scram-sha-256",
            await AskAsync<string>(database.ConnectionString, "select string_agg(distinct auth_method, ',') from pg_hba_file_rules"));

        var wrong = new NpgsqlConnectionStringBuilder(database.ConnectionString) { Password = "wrong" }.ConnectionString;
        var refused = await Assert.ThrowsAsync<PostgresException>(() => AskAsync<int>(wrong, "select 1"));
        Assert.Equal(PostgresErrorCodes.InvalidPassword, refused.SqlState);
        Assert.Contains("created now", Assert.Single(Said), StringComparison.Ordinal);
        Assert.Contains(Folder, database.Description, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Open_NewFolder_ListensOnLoopbackOnly()
    {
        await using var database = await OpenAsync();

        var port = new NpgsqlConnectionStringBuilder(database.ConnectionString).Port;
        var listening = IPGlobalProperties.GetIPGlobalProperties().GetActiveTcpListeners().Where(endPoint => endPoint.Port == port);
        Assert.All(listening, endPoint => Assert.Equal("127.0.0.1", endPoint.Address.ToString()));
        Assert.NotEmpty(listening);
        Assert.Equal("", await AskAsync<string>(database.ConnectionString, "show unix_socket_directories"));
    }

    [Fact]
    public async Task Open_NewFolder_KeepsPasswordAndDataFromOtherAccounts()
    {
        await using var database = await OpenAsync();
        if (OperatingSystem.IsWindows())
            return;

        const UnixFileMode OthersBits = (UnixFileMode)0x3F; // rwxrwx of group and others
        Assert.Equal(UnixFileMode.None, File.GetUnixFileMode(Path.Combine(Folder, "password")) & OthersBits);
        Assert.Equal(UnixFileMode.None, File.GetUnixFileMode(Path.Combine(Folder, "data")) & OthersBits);
    }

    [Fact]
    public async Task Open_TwiceInARow_KeepsTheData()
    {
        await using (var first = await OpenAsync())
            await WriteAsync(first.ConnectionString, 1);

        await using var second = await OpenAsync();
        Assert.Equal(1, await CountAsync(second.ConnectionString));
        Assert.Contains("kept from the last run", Said[1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Dispose_OpenSessions_StopsTheServer()
    {
        var database = await OpenAsync();
        await using var source = NpgsqlDataSource.Create(database.ConnectionString);
        await using var session = await source.OpenConnectionAsync();

        await database.DisposeAsync();

        Assert.False(File.Exists(Path.Combine(Folder, "data", "postmaster.pid")));
        await Assert.ThrowsAnyAsync<NpgsqlException>(() => AskAsync<int>(database.ConnectionString, "select 1"));
    }

    [Fact]
    public async Task Open_FirstStartWasInterrupted_BeginsAgain()
    {
        await using (await OpenAsync())
        {
        }

        // As if the process had ended before initdb was done.
        Directory.Move(Path.Combine(Folder, "data"), Path.Combine(Folder, "data.unfinished"));
        await using var database = await OpenAsync();
        Assert.Equal(1, await AskAsync<int>(database.ConnectionString, "select 1"));
        Assert.False(Directory.Exists(Path.Combine(Folder, "data.unfinished")));
    }

    [Fact]
    public async Task Open_PortConfigured_UsesIt()
    {
        var port = FreePort();
        await using var database = await OpenAsync(Options with { Port = port });
        Assert.Equal(port, new NpgsqlConnectionStringBuilder(database.ConnectionString).Port);
    }

    private static int FreePort()
    {
        using var listener = new System.Net.Sockets.TcpListener(System.Net.IPAddress.Loopback, 0);
        listener.Start();
        return ((System.Net.IPEndPoint)listener.LocalEndpoint).Port;
    }
}
