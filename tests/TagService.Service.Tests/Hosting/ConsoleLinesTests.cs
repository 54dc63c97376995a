using System.Globalization;
using System.Text;
using Serilog;
using Serilog.Formatting.Display;
using TagService.Hosting;

namespace TagService.Service.Tests.Hosting;

public sealed class ConsoleLinesTests
{
    [Fact]
    public async Task Emit_ManyThreadsMoreThanWaits_WritesEveryLineOnceAndWhole()
    {
        // Slower than the lines come, so that those who log have to wait.
        using var output = new SlowStream();
        using (var log = LogTo(output))
        {
            await Task.WhenAll(Enumerable.Range(0, 4).Select(thread => Task.Run(() =>
            {
                for (var i = 0; i < 10_000; i++)
                    log.Information("thread {Thread} line {Line}", thread, i);
            })));
        }

        var lines = output.Text.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        for (var thread = 0; thread < 4; thread++)
        {
            Assert.Equal(
                Enumerable.Range(0, 10_000).Select(i => $"thread {thread} line {i}"),
                lines.Where(l => l.StartsWith($"thread {thread} ", StringComparison.Ordinal)));
        }

        Assert.Equal(40_000, lines.Length);
    }

    [Fact]
    public async Task Emit_OneLine_IsWrittenWithoutBeingFlushed()
    {
        using var output = new SlowStream();
        using var log = LogTo(output);
        log.Information("größer");
        for (var i = 0; i < 100 && output.Text.Length == 0; i++)
            await Task.Delay(50);
        Assert.Equal("größer\n", output.Text);
    }

    [Fact]
    public void Emit_OutputFails_GoesOn()
    {
        using var output = new SlowStream { Fails = true };
        using (var log = LogTo(output))
            log.Error("lost");
        Assert.Equal("", output.Text);
    }

    private static Serilog.Core.Logger LogTo(Stream output) => new LoggerConfiguration()
        .WriteTo.Sink(new ConsoleLines(new MessageTemplateTextFormatter("{Message:lj}\n", CultureInfo.InvariantCulture), output))
        .CreateLogger();

    private sealed class SlowStream : MemoryStream
    {
        private readonly StringBuilder _text = new();

        public bool Fails { get; init; }

        public string Text
        {
            get
            {
                lock (_text)
                    return _text.ToString();
            }
        }

        public override void Write(ReadOnlySpan<byte> buffer)
        {
            if (Fails)
                throw new IOException("The disk is full.");
            Thread.Sleep(20);
            lock (_text)
                _text.Append(Encoding.UTF8.GetString(buffer));
        }

        public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));
    }
}
