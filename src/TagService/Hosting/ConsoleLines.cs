using System.Text;
using System.Threading.Channels;
using Serilog.Core;
using Serilog.Events;
using Serilog.Formatting;

namespace TagService.Hosting;

/// <summary>
/// Writes log lines to a stream (the console, usually) off the threads that log. Lines are gathered for a moment and written at once:
/// a thread woken for the line of each request takes a core from the request that comes next, on two cores a sixth of its time.
/// </summary>
internal sealed class ConsoleLines : ILogEventSink, IDisposable
{
    // Waits rather than drops when lines come faster than they go.
    private const int MostWaiting = 10_000;
    private static readonly TimeSpan Moment = TimeSpan.FromMilliseconds(50);

    private readonly Channel<LogEvent> _waiting = Channel.CreateBounded<LogEvent>(
        new BoundedChannelOptions(MostWaiting) { SingleReader = true });

    private readonly SemaphoreSlim _hurry = new(0);
    private readonly ITextFormatter _formatter;
    private readonly Stream _output;
    private readonly Task _writing;

    public ConsoleLines(ITextFormatter formatter, Stream output)
    {
        _formatter = formatter;
        _output = output;
        _writing = Task.Run(WriteAsync);
    }

    public void Emit(LogEvent logEvent)
    {
        // False when full, or after the end: then nobody is left to write it.
        if (!_waiting.Writer.TryWrite(logEvent) && !Wait(logEvent))
            return;
        // What went wrong is not to be lost if the process goes down with it.
        if (logEvent.Level >= LogEventLevel.Warning)
            _hurry.Release();
    }

    public void Dispose()
    {
        if (!_waiting.Writer.TryComplete())
            return;
        _hurry.Release();
        _writing.GetAwaiter().GetResult();
        _hurry.Dispose();
    }

    private bool Wait(LogEvent logEvent)
    {
        try
        {
            _waiting.Writer.WriteAsync(logEvent).AsTask().GetAwaiter().GetResult();
            return true;
        }
        catch (ChannelClosedException)
        {
            return false;
        }
    }

    private async Task WriteAsync()
    {
        var text = new StringWriter(new StringBuilder(1 << 14));
        while (await _waiting.Reader.WaitToReadAsync())
        {
            await _hurry.WaitAsync(Moment);
            while (_waiting.Reader.TryRead(out var logEvent))
                _formatter.Format(logEvent, text);
            Write(text.GetStringBuilder());
        }
    }

    private void Write(StringBuilder text)
    {
        try
        {
            _output.Write(Encoding.UTF8.GetBytes(text.ToString()));
            _output.Flush();
        }
        catch (IOException)
        {
            // Whoever read the console has gone, or the disk behind it is full: the service goes on without it.
        }

        text.Clear();
    }
}
