using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Logging;
using TagService.Api;
using TagService.Api.Http.Json;
using TagService.Storage;

namespace TagService.Service.Tests.Http;

/// <summary>The HTTP side on a loopback port with a few endpoints of its own: what the plumbing does, without any feature.</summary>
public sealed class ProbeHost : IAsyncLifetime
{
    private readonly WebApplication _app;

    public ProbeHost()
    {
        var builder = WebApplication.CreateBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseKestrel(k => k.Listen(IPAddress.Loopback, 0));
        // Nobody listens on port 1: the database is away.
        builder.Services.AddTagServiceStorage("Host=127.0.0.1;Port=1;Timeout=1");
        builder.Services.AddTagServiceApi();
        _app = builder.Build();
        _app.MapTagServiceApi();
        _app.MapPost("/probe/records", ReadRecord).ExcludeFromDescription();
        _app.MapGet("/probe/defect", IResult () => throw new InvalidOperationException("secret detail")).ExcludeFromDescription();
        _app.MapGet("/probe/database", IResult () => throw new Npgsql.NpgsqlException("secret host", new IOException())).ExcludeFromDescription();
        _app.MapGet("/probe/number/{id:int}", (int id) => id).ExcludeFromDescription();
    }

    public HttpClient Client { get; private set; } = new();

    public async Task InitializeAsync()
    {
        await _app.StartAsync();
        Client = new HttpClient { BaseAddress = new Uri(_app.Urls.Single()) };
    }

    public async Task DisposeAsync()
    {
        Client.Dispose();
        await _app.DisposeAsync();
    }

    private static async Task<IResult> ReadRecord(HttpContext context, CancellationToken cancellationToken)
    {
        var body = await JsonBody.ReadAsync<ProbeRecord>(context, null, cancellationToken);
        return body.IsRead ? TypedResults.Ok(body.OtherMembers.Keys.ToArray()) : body.Problem;
    }
}
