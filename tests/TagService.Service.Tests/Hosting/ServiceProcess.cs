using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using System.Threading.Channels;

namespace TagService.Service.Tests.Hosting;

/// <summary>The program as a person starts it: a process of its own, its console and its exit code.</summary>
internal sealed class ServiceProcess : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(90);
    private readonly Process _process;
    private readonly List<string> _output = [];
    private readonly Task<string> _errors;

    // Read at once and kept: a process whose output nobody reads stands still when the pipe is full.
    private readonly Channel<string> _lines = Channel.CreateUnbounded<string>();

    private ServiceProcess(Process process)
    {
        _process = process;
        _errors = process.StandardError.ReadToEndAsync();
        _ = ReadLinesAsync();
    }

    public bool HasExited => _process.HasExited;

    public IReadOnlyList<string> Output => _output;

    public static ServiceProcess Start(params string[] args)
    {
        var dotnet = Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "../../../dotnet"));
        var start = new ProcessStartInfo(dotnet, [Path.Combine(AppContext.BaseDirectory, "TagService.dll"), .. args])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        return new(Process.Start(start)!);
    }

    /// <summary>Runs to the end.</summary>
    public static async Task<(int ExitCode, string[] Output, string[] Errors)> RunAsync(params string[] args)
    {
        await using var process = Start(args);
        var (exitCode, errors) = await process.WaitAsync();
        return (exitCode, [.. process.Output], errors);
    }

    /// <summary>Reads on until a line holds the text.</summary>
    public async Task<string> ReadUntilAsync(string text)
    {
        using var limit = new CancellationTokenSource(Patience);
        await foreach (var line in _lines.Reader.ReadAllAsync(limit.Token))
        {
            _output.Add(line);
            if (line.Contains(text, StringComparison.Ordinal))
                return line;
        }

        throw new InvalidOperationException($"No line with {text}, but: {string.Join('\n', _output)}\n{await _errors}");
    }

    /// <summary>Sends a signal, as a terminal (INT) or a container engine (TERM) does.</summary>
    public void Signal(string name)
    {
        using var kill = Process.Start("kill", [$"-{name}", _process.Id.ToString(CultureInfo.InvariantCulture)]);
        kill.WaitForExit();
    }

    public async Task<(int ExitCode, string[] Errors)> WaitAsync()
    {
        using var limit = new CancellationTokenSource(Patience);
        await foreach (var line in _lines.Reader.ReadAllAsync(limit.Token))
            _output.Add(line);
        await _process.WaitForExitAsync(limit.Token);
        return (_process.ExitCode, (await _errors).Split('\n', StringSplitOptions.RemoveEmptyEntries));
    }

    private async Task ReadLinesAsync()
    {
        while (await _process.StandardOutput.ReadLineAsync() is { } line)
            _lines.Writer.TryWrite(line);
        _lines.Writer.Complete();
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            _process.Kill(entireProcessTree: false);
            await _process.WaitForExitAsync();
        }

        _process.Dispose();
    }
}
