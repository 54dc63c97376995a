using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using TagService.Hosting;
using TagService.Service.Tests.Database;
using TagService.Storage.Schema;

namespace TagService.Service.Tests.Registers;

/// <summary>The service in its api role with a folder of register files, two credentials and leave to read from this machine.</summary>
public sealed class RegisterApiHost(TestDatabase database) : IAsyncLifetime
{
    public const string Secret = "s3cret-of-the-works";

    private readonly string _folder = Directory.CreateTempSubdirectory("tagservice-test-").FullName;
    private WebApplication? _app;

    public HttpClient Client { get; } = new() { Timeout = TimeSpan.FromSeconds(60) };

    public string Folder => _folder;

    public string ConnectionString { get; private set; } = "";

    public IServiceProvider Services => _app!.Services;

    public async Task InitializeAsync()
    {
        ConnectionString = await database.CreateDatabaseAsync($"registers_{Guid.NewGuid():N}");
        _app = Build(ConnectionString, Folder);
        await _app.Services.GetRequiredService<DatabaseMigrator>().MigrateAsync(CancellationToken.None);
        await _app.StartAsync();
        Client.BaseAddress = new Uri(_app.Urls.Single());
    }

    /// <summary>A host that is not started.</summary>
    internal static WebApplication Build(string connectionString, string folder, params string[] more)
    {
        var builder = ServiceHost.CreateBuilder(
        [
            "--Urls=http://127.0.0.1:0", "--Roles=api", "--Log:Level=Error", $"--Registers:Files:Folders:inbox={folder}", "--Registers:Files:SettleTime=00:00:00",
            "--Registers:Http:AllowedHttpHosts:0=127.0.0.1", "--Registers:Http:AllowedNetworks:0=127.0.0.1/32", "--Registers:Http:RetryDelay=00:00:00.02",
            "--Registers:Http:Retries=1", "--Registers:Http:AttemptTimeout=00:00:02",
            "--Registers:Http:Credentials:works:Kind=Bearer", "--Registers:Http:Credentials:works:Origin=https://register.example", $"--Registers:Http:Credentials:works:Secret={Secret}",
            "--Registers:Http:Credentials:depot:Kind=Bearer", "--Registers:Http:Credentials:depot:Origin=https://depot.example", $"--Registers:Http:Credentials:depot:Secret={Secret}",
            .. more,
        ]);
        return ServiceHost.Build(builder, ServiceSettings.Read(builder.Configuration), connectionString);
    }

    public async Task<object?> SqlAsync(string sql)
    {
        await using var command = Services.GetRequiredService<NpgsqlDataSource>().CreateCommand(sql);
        return await command.ExecuteScalarAsync();
    }

    public async Task DisposeAsync()
    {
        Client.Dispose();
        if (_app is not null)
            await _app.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }
}
