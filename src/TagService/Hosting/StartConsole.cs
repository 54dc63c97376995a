using Serilog;
using Serilog.Core;

namespace TagService.Hosting;

/// <summary>What is said while starting: plain lines for people, log objects where the log is JSON.</summary>
internal sealed class StartConsole : IAsyncDisposable
{
    private readonly Logger? _json;

    public StartConsole(ServiceSettings settings)
    {
        if (settings.JsonLog)
            _json = ServiceLog.Configure(new LoggerConfiguration(), settings).CreateLogger();
    }

    public void Say(string line)
    {
        if (_json is null)
            Console.Out.WriteLine(line);
        else
            _json.Information("{Line}", line);
    }

    public void Welcome(Welcome welcome)
    {
        if (_json is null)
            Console.Out.Write(welcome.Text);
        else
            _json.Information(
                "TagService {Version} runs on {Addresses} as {Roles} with the database {Database}",
                Hosting.Welcome.Version, welcome.Addresses, welcome.Roles, welcome.Database);
    }

    public ValueTask DisposeAsync() => _json?.DisposeAsync() ?? ValueTask.CompletedTask;
}
