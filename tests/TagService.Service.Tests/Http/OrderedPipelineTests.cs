using System.Buffers;
using System.IO.Pipelines;
using System.Text;
using TagService.Api.Http.Json;
using TagService.Api.Http.Ndjson;

namespace TagService.Service.Tests.Http;

/// <summary>Batches whose callers read late, slowly or never; the answers are invented, long and hardly to be packed.</summary>
public sealed class OrderedPipelineTests
{
    private const int Lines = 3000;

    [Fact]
    public async Task Run_CallerWhoReadsWhenAllIsSent_GetsEveryAnswerInOrder()
    {
        var limits = Limits(megabytes: 100);
        var run = new Run(limits);
        await run.SendAllAsync();
        Assert.InRange(limits.Taken, 1, 100_000_000);
        Assert.Equal(Enumerable.Range(1, Lines).Select(Echo.TextOf), await run.ReadAllAsync());
        await run.Ending;
        Assert.Equal(0, limits.Taken);
        Assert.Equal((Lines, 0), run.Answers.Reported);
    }

    [Fact]
    public async Task Run_CallerWhoReadsWhenAllIsSentButNoRoom_GetsAnswersAsFarAsTheyWentAndIsToldFromWhere()
    {
        var run = new Run(Limits(megabytes: 2));
        await run.SendAllAsync();
        var answers = await run.ReadAllAsync();
        await run.Ending;
        var kept = answers.Count - 1;
        Assert.InRange(kept, 1, Lines - 1);
        Assert.Equal(Enumerable.Range(1, kept).Select(Echo.TextOf), answers.Take(kept));
        Assert.Equal($"not read {kept + 1} to {Lines}", answers[kept]);
        Assert.Equal((Lines, Lines - kept), run.Answers.Reported);
    }

    [Fact]
    public async Task Run_CallerWhoReadsSlowlyAndNoRoom_IsWaitedFor()
    {
        var run = new Run(Limits(megabytes: 0));
        var sending = run.SendAllAsync();
        var answers = await run.ReadAllAsync(pause: TimeSpan.FromMilliseconds(2));
        await sending;
        await run.Ending;
        Assert.Equal(Enumerable.Range(1, Lines).Select(Echo.TextOf), answers);
    }

    [Fact]
    public async Task Run_CallerWhoNeverReads_IsCutOff()
    {
        var limits = Limits(megabytes: 100);
        var run = new Run(limits);
        await run.SendAllAsync();
        await Assert.ThrowsAsync<TimeoutException>(() => run.Ending);
        Assert.Equal(0, limits.Taken);
    }

    [Fact]
    public async Task Run_CallerWhoGoesAway_LeavesNothingBehind()
    {
        var limits = Limits(megabytes: 100);
        using var gone = new CancellationTokenSource();
        var run = new Run(limits, gone.Token);
        await run.SendAllAsync();
        await gone.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => run.Ending);
        Assert.Equal(0, limits.Taken);
    }

    private static BatchSpooling Limits(int megabytes) => new(megabytes * 1_000_000L)
    {
        Patience = TimeSpan.FromMilliseconds(50), GiveUp = TimeSpan.FromMilliseconds(500), Abandon = TimeSpan.FromSeconds(3),
    };

    /// <summary>A batch under way, its caller's two ends in the hand of the test.</summary>
    private sealed class Run
    {
        private readonly Pipe _in = new();
        private readonly Pipe _out = new();

        public Run(BatchSpooling limits, CancellationToken cancellationToken = default) =>
            Ending = EndAsync(new OrderedPipeline(Answers, limits, TimeProvider.System).RunAsync(new(_in.Reader, 1000), _out.Writer, cancellationToken));

        public Echo Answers { get; } = new();

        public Task Ending { get; }

        public async Task SendAllAsync()
        {
            for (var i = 1; i <= Lines; i++)
                await _in.Writer.WriteAsync(Encoding.UTF8.GetBytes($"{i}\n"));
            await _in.Writer.CompleteAsync();
            // The last lines may still be on their way through.
            while (Answers.Reported.Lines < Lines)
                await Task.Delay(10);
        }

        public async Task<List<string>> ReadAllAsync(TimeSpan pause = default)
        {
            var text = new ArrayBufferWriter<byte>();
            while (true)
            {
                var read = await _out.Reader.ReadAsync();
                foreach (var segment in read.Buffer)
                    text.Write(segment.Span);
                _out.Reader.AdvanceTo(read.Buffer.End);
                if (read.IsCompleted)
                    return [.. Encoding.UTF8.GetString(text.WrittenSpan).Split('\n', StringSplitOptions.RemoveEmptyEntries)];
                if (pause > TimeSpan.Zero)
                    await Task.Delay(pause);
            }
        }

        private async Task EndAsync(Task running)
        {
            try
            {
                await running;
            }
            finally
            {
                await _out.Writer.CompleteAsync();
            }
        }
    }

    private sealed class Echo : ILineAnswers
    {
        private readonly Lock _lock = new();
        private (long Lines, long Refused) _reported;

        public (long Lines, long Refused) Reported
        {
            get
            {
                lock (_lock)
                    return _reported;
            }
        }

        public static string TextOf(int line)
        {
            var random = new byte[3000];
            new Random(line).NextBytes(random);
            return $"{line} {Convert.ToHexString(random)}";
        }

        public bool Answer(Line line, JsonBytes json)
        {
            json.Write(Encoding.UTF8.GetBytes(TextOf(int.Parse(line.Text, System.Globalization.CultureInfo.InvariantCulture))));
            return true;
        }

        public void NotRead(JsonBytes json, long firstLine, long lastLine) =>
            json.Write(Encoding.UTF8.GetBytes($"not read {firstLine} to {lastLine}"));

        public void Report(long answered, long refused)
        {
            lock (_lock)
                _reported = (answered, refused);
        }
    }
}
