using System.Collections.Concurrent;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using TagService.Intake.Registers;

namespace TagService.Service.Tests.Registers;

/// <summary>The readers as a host sets them up, with everything that is logged.</summary>
internal sealed class RegisterTestHost : IDisposable
{
    private readonly ServiceProvider _services;
    private readonly CollectingLoggers _loggers = new();

    public RegisterTestHost(params IEnumerable<(string Key, string Value)> settings)
    {
        var configuration = new ConfigurationBuilder().AddInMemoryCollection(new Dictionary<string, string?>
        {
            ["Registers:Http:AllowedHttpHosts:0"] = "127.0.0.1",
            ["Registers:Http:AllowedNetworks:0"] = "127.0.0.1/32",
            ["Registers:Http:RetryDelay"] = "00:00:00.02",
            ["Registers:Http:AttemptTimeout"] = "00:00:05",
            ["Registers:Http:ReadTimeout"] = "00:00:05",
            ["Registers:Files:SettleTime"] = "00:00:00",
        }.Concat(settings.Select(s => KeyValuePair.Create(s.Key, (string?)s.Value))).GroupBy(p => p.Key).Select(g => g.Last())).Build();
        _services = new ServiceCollection()
            .AddLogging(b => b.SetMinimumLevel(LogLevel.Trace).AddProvider(_loggers))
            .AddRegisterReading(configuration)
            .BuildServiceProvider();
    }

    public RegisterReaders Readers => _services.GetRequiredService<RegisterReaders>();

    public string Logged => string.Join('\n', _loggers.Lines);

    public void Dispose() => _services.Dispose();

    /// <summary>Reads a pass to its end.</summary>
    public static async Task<List<RegisterPage>> AllAsync(IRegisterReader reader, RegisterPosition? after = null)
    {
        var pages = new List<RegisterPage>();
        await foreach (var page in reader.ReadAsync(after))
            pages.Add(page);
        return pages;
    }

    /// <summary>Reads until it fails; gives what came before and the failure.</summary>
    public static async Task<(List<RegisterPage> Pages, RegisterReadException Failure)> FailAsync(IRegisterReader reader, RegisterPosition? after = null)
    {
        var pages = new List<RegisterPage>();
        var failure = await Assert.ThrowsAsync<RegisterReadException>(async () =>
        {
            await foreach (var page in reader.ReadAsync(after))
                pages.Add(page);
        });
        return (pages, failure);
    }

    /// <summary>Keys of the rows in order.</summary>
    public static List<string> Ids(IEnumerable<RegisterPage> pages, string source = "/id") =>
        [.. pages.SelectMany(p => p.Rows).Select(r => r.Row.Find(source)!.Value.Text)];

    private sealed class CollectingLoggers : ILoggerProvider, ILogger
    {
        public ConcurrentQueue<string> Lines { get; } = [];

        public ILogger CreateLogger(string categoryName) => this;

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull
        {
            Lines.Enqueue(state.ToString() ?? "");
            return null;
        }

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
            Lines.Enqueue($"{formatter(state, exception)} {exception}");

        public void Dispose()
        {
        }
    }
}
