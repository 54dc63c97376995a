using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace TagService.Service.Tests.Registers;

/// <summary>A register server under the test's control: what it answers is the test's function. Its rows are invented.</summary>
internal sealed class FaultyRegister : IAsyncDisposable
{
    private readonly WebApplication _app;
    private readonly Func<HttpContext, int, Task> _answer;

    private FaultyRegister(WebApplication app, Func<HttpContext, int, Task> answer) => (_app, _answer) = (app, answer);

    /// <summary>Requests in the order of their arrival: path with query, and headers.</summary>
    public ConcurrentQueue<(string Path, IReadOnlyDictionary<string, string> Headers, DateTimeOffset At)> Requests { get; } = [];

    public Uri Address { get; private set; } = null!;

    /// <summary>Starts a server; the answer gets the number of the request, from 1.</summary>
    public static async Task<FaultyRegister> StartAsync(Func<HttpContext, int, Task> answer)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseKestrel(o =>
        {
            o.Listen(IPAddress.Loopback, 0);
            o.Limits.MinResponseDataRate = null;
        });
        var app = builder.Build();
        var register = new FaultyRegister(app, answer);
        app.Run(register.AnswerAsync);
        await app.StartAsync();
        register.Address = new(app.Urls.Single());
        return register;
    }

    /// <summary>One row as JSON.</summary>
    public static string Row(int i) => string.Create(CultureInfo.InvariantCulture, $$"""{"id":"A-{{i}}","name":"pump {{i}}","wall":{"mm":{{i % 9}}.5},"retired":false}""");

    /// <summary>A page as JSON with rows, cursor and total.</summary>
    public static string Page(IEnumerable<string> rows, string? cursor = null, int? total = null) =>
        $$"""{"next":{{(cursor is null ? "null" : $"\"{cursor}\"")}},"items":[{{string.Join(",", rows)}}],"total":{{total?.ToString(CultureInfo.InvariantCulture) ?? "null"}}}""";

    public static Task WriteAsync(HttpContext context, string json, string type = "application/json")
    {
        context.Response.ContentType = type;
        return context.Response.WriteAsync(json, Encoding.UTF8);
    }

    public static int Number(HttpContext context, string parameter, int otherwise) =>
        int.TryParse(context.Request.Query[parameter], NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : otherwise;

    public async ValueTask DisposeAsync()
    {
        using var now = new CancellationTokenSource(0);
        await _app.StopAsync(now.Token);
        await _app.DisposeAsync();
    }

    private Task AnswerAsync(HttpContext context)
    {
        Requests.Enqueue((
            context.Request.Path + context.Request.QueryString,
            context.Request.Headers.ToDictionary(h => h.Key, h => h.Value.ToString(), StringComparer.OrdinalIgnoreCase),
            DateTimeOffset.UtcNow));
        return _answer(context, Requests.Count);
    }
}
