using System.Collections.Concurrent;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Serilog.Core;
using Serilog.Events;
using Serilog.Formatting.Compact;
using TagService.Hosting;

namespace TagService.Service.Tests.Hosting;

/// <summary>The real host in this process, on a free port, with its log captured as it would be written in JSON.</summary>
internal sealed class RunningHost : IAsyncDisposable
{
    private readonly WebApplication _app;
    private readonly CapturedLog _log;

    private RunningHost(WebApplication app, CapturedLog log)
    {
        _app = app;
        _log = log;
        Client = new HttpClient { BaseAddress = new Uri(app.Urls.First()) };
    }

    public HttpClient Client { get; }

    public IReadOnlyCollection<string> LogLines => _log.Lines;

    public static async Task<RunningHost> StartAsync(string connectionString, params string[] options)
    {
        var builder = ServiceHost.CreateBuilder(["--Urls=http://127.0.0.1:0", "--Log:Level=Debug", .. options]);
        var log = new CapturedLog();
        builder.Services.AddSingleton<ILogEventSink>(log);
        var app = ServiceHost.Build(builder, ServiceSettings.Read(builder.Configuration), connectionString);
        await app.StartAsync();
        return new(app, log);
    }

    public Task StopAsync() => _app.StopAsync();

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await _app.DisposeAsync();
    }

    private sealed class CapturedLog : ILogEventSink
    {
        private static readonly CompactJsonFormatter Json = new();

        public ConcurrentQueue<string> Lines { get; } = [];

        public void Emit(LogEvent logEvent)
        {
            using var line = new StringWriter();
            Json.Format(logEvent, line);
            Lines.Enqueue(line.ToString());
        }
    }
}
