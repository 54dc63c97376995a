using TagService.Service.Tests.Database;
using TagService.Service.Tests.Hosting;
using TagService.Service.Tests.Storage;

namespace TagService.Service.Tests.Numbering;

/// <summary>The service, and the storage services of another process on the same database.</summary>
public sealed class NumberingHost(TestDatabase server) : IAsyncLifetime
{
    private StorageServices? _storage;
    private RunningHost? _host;

    public HttpClient Client => _host!.Client;

    internal StorageServices Storage => _storage!;

    public async Task InitializeAsync()
    {
        _storage = await StorageServices.CreateMigratedAsync(server, "numbering_http");
        _host = await RunningHost.StartAsync(_storage.ConnectionString, "--Roles=api");
    }

    public async Task DisposeAsync()
    {
        await _host!.DisposeAsync();
        await _storage!.DisposeAsync();
    }
}
