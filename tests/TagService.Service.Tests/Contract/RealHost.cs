using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using TagService.Hosting;
using TagService.Service.Tests.Database;
using TagService.Storage.Schema;

namespace TagService.Service.Tests.Contract;

/// <summary>The whole service in its api role, on a loopback port, with a migrated and empty database of its own.</summary>
public sealed class RealHost(TestDatabase database) : IAsyncLifetime
{
    private WebApplication? _app;

    public HttpClient Client { get; } = new();

    /// <summary>Routes the service has mapped, as METHOD path, without those that are no part of the contract.</summary>
    public IReadOnlyList<string> Routes =>
    [
        .. _app!.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(e => e.Metadata.GetMetadata<IExcludeFromDescriptionMetadata>() is not { ExcludeFromDescription: true })
            .SelectMany(e => e.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods.Select(m => $"{m} {e.RoutePattern.RawText}") ?? []),
    ];

    public async Task InitializeAsync()
    {
        var connection = await database.CreateDatabaseAsync($"contract_{Guid.NewGuid():N}");
        var builder = ServiceHost.CreateBuilder(["--Urls=http://127.0.0.1:0", "--Roles=api", "--Log:Level=Error"]);
        _app = ServiceHost.Build(builder, ServiceSettings.Read(builder.Configuration), connection);
        await _app.Services.GetRequiredService<DatabaseMigrator>().MigrateAsync(CancellationToken.None);
        await _app.StartAsync();
        Client.BaseAddress = new Uri(_app.Urls.Single());
    }

    public async Task DisposeAsync()
    {
        Client.Dispose();
        if (_app is not null)
            await _app.DisposeAsync();
    }
}
