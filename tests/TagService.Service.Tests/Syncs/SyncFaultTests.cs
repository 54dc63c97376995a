using System.Globalization;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Time.Testing;
using TagService.Service.Tests.Database;
using TagService.Storage.Tables;
using static TagService.Service.Tests.Registers.FaultyRegister;

namespace TagService.Service.Tests.Syncs;

/// <summary>Runs over a register that fails; the reader's own answers to each fault are tested with the reader. Rows are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class SyncFaultTests(TestDatabase server)
{
    private static readonly string[] Rows = [.. Enumerable.Range(0, 250).Select(Row)];

    [Fact]
    public async Task Run_SourceFailsHalfWay_WaitsAndReadsOnBehindWhatIsWritten()
    {
        var broken = true;
        await using var register = await StartAsync((context, _) =>
        {
            if (Number(context, "page", 1) < 3 || !broken)
                return PageAsync(context);
            context.Response.StatusCode = 500;
            return Task.CompletedTask;
        });
        var clock = new FakeTimeProvider(new(2026, 5, 4, 6, 0, 0, TimeSpan.Zero));
        await using var host = await SyncHost.StartAsync(server, "sync_half_way", clock, ("Registers:Http:Retries", "1"));
        await host.SaveAsync("plant", SyncHost.Pages(register));
        var waiting = await host.RunAsync("plant");
        Assert.Equal((RegisterSyncState.Waiting, "source-failed", 100L, 1), (waiting.State, waiting.ReasonCode, waiting.Created, waiting.Attempts));
        Assert.Equal(clock.GetUtcNow().AddMinutes(1), waiting.TryAgainAt);
        Assert.Equal(0, await host.Job().RunOnceAsync(default));

        broken = false;
        var asked = register.Requests.Count;
        clock.Advance(TimeSpan.FromMinutes(1));
        Assert.Equal(1, await host.Job().RunOnceAsync(default));
        var done = await host.FindAsync(waiting.Id);
        Assert.Equal((RegisterSyncState.Done, 250L, 250L, null), (done.State, done.Rows, done.Created, done.ReasonCode));
        Assert.DoesNotContain(register.Requests.Skip(asked), r => r.Path.Contains("page=1", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Run_SourceNeverRecovers_FailsAfterLongerAndLongerPauses()
    {
        await using var register = await StartAsync((context, _) =>
        {
            context.Response.StatusCode = 503;
            return Task.CompletedTask;
        });
        var clock = new FakeTimeProvider(new(2026, 5, 4, 6, 0, 0, TimeSpan.Zero));
        await using var host = await SyncHost.StartAsync(server, "sync_never", clock, ("Registers:Http:Retries", "1"), ("Registers:Http:CircuitLeastRequests", "1000"));
        await host.SaveAsync("plant", SyncHost.Pages(register));
        var id = await host.RequestAsync("plant");
        var pauses = new List<TimeSpan>();
        for (var i = 0; i < 20 && await host.Job().RunOnceAsync(default) == 1; i++)
        {
            if ((await host.FindAsync(id)).TryAgainAt is not { } at)
                break;
            pauses.Add(at - clock.GetUtcNow());
            clock.Advance(pauses[^1]);
        }

        var run = await host.FindAsync(id);
        Assert.Equal(RegisterSyncState.Failed, run.State);
        Assert.Equal(pauses.Order(), pauses);
        Assert.InRange(pauses.Sum(p => p.TotalHours), 3, 12);
    }

    [Theory]
    [InlineData("throttled", RegisterSyncState.Waiting, "throttled")]
    [InlineData("garbage", RegisterSyncState.Waiting, "malformed")]
    [InlineData("broken-off", RegisterSyncState.Waiting, "truncated,malformed,unreachable")]
    [InlineData("slow", RegisterSyncState.Waiting, "timed-out")]
    [InlineData("login-page", RegisterSyncState.Failed, "wrong-content-type")]
    [InlineData("forbidden-redirect", RegisterSyncState.Failed, "forbidden-address")]
    [InlineData("refused", RegisterSyncState.Failed, "credentials-refused")]
    [InlineData("gone", RegisterSyncState.Failed, "not-found")]
    public async Task Run_Fault_IsToldAndNothingIsRetired(string fault, RegisterSyncState state, string codes)
    {
        string? now = null;
        await using var register = await StartAsync((context, _) => now is null || Number(context, "page", 1) == 1 ? PageAsync(context) : FaultAsync(context, now));
        await using var host = await SyncHost.StartAsync(
            server, $"sync_fault_{fault.Replace('-', '_')}", null, ("Registers:Http:Retries", "1"), ("Registers:Http:AttemptTimeout", "00:00:01"), ("Registers:Http:MostRetryAfter", "00:00:10"));
        await host.SaveAsync("plant", SyncHost.Pages(register));
        await host.RunAsync("plant");
        now = fault;
        var id = await host.RequestAsync("plant");
        var before = DateTimeOffset.UtcNow;
        await host.Job().RunOnceAsync(default);
        var run = await host.FindAsync(id);
        Assert.Equal(state, run.State);
        Assert.Contains(run.ReasonCode!, codes.Split(','));
        Assert.NotEqual("", run.ReasonDetail);
        Assert.Equal(50, run.Unchanged);
        Assert.Equal(250, (await host.InServiceAsync()).Count);
        if (fault == "throttled")
            Assert.InRange((run.TryAgainAt!.Value - before).TotalSeconds, 590, 660);
    }

    /// <summary>Every answer may be another one; once the register is well again one run makes the mirror what it says.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    public async Task Runs_OverARegisterThatDoesAllOfIt_EndAsTheRegisterIs(int seed)
    {
        string[] faults = ["garbage", "broken-off", "gone", "refused", "login-page", "500"];
        var random = new Random(seed);
        var rows = Enumerable.Range(0, 180).ToDictionary(i => i, _ => 0);
        var (well, gate) = (false, new Lock());
        await using var register = await StartAsync((context, _) =>
        {
            lock (gate)
            {
                if (!well && random.Next(6) == 0)
                    return FaultAsync(context, faults[random.Next(faults.Length)]);
                for (var changes = well ? 0 : random.Next(12); changes > 0; changes--)
                {
                    var i = random.Next(200);
                    if (random.Next(4) == 0)
                        rows.Remove(i);
                    else
                        rows[i] = rows.GetValueOrDefault(i) + 1;
                }

                var page = Number(context, "page", 1);
                var list = rows.OrderBy(r => r.Key).Select(r => RowOf(r.Key, r.Value)).Skip((page - 1) * 50).Take(50).ToList();
                // Repeats and drops rows.
                if (!well && list.Count > 2 && random.Next(3) == 0)
                    list.Insert(random.Next(list.Count), list[random.Next(list.Count)]);
                if (!well && list.Count > 2 && random.Next(3) == 0)
                    list.RemoveAt(random.Next(list.Count));
                return WriteAsync(context, Page(list, total: rows.Count));
            }
        });
        await using var host = await SyncHost.StartAsync(server, $"sync_all_{seed}", null, ("Registers:Http:Retries", "1"), ("Registers:Http:CircuitLeastRequests", "100000"));
        await host.SaveAsync("plant", SyncHost.Pages(register) with { MostMissingShare = 1 });
        for (var i = 0; i < 12; i++)
        {
            if (await host.Storage.CountAsync("register_syncs WHERE state IN ('waiting', 'running')") == 0)
                await host.RequestAsync("plant");
            await host.Storage.ScalarAsync("UPDATE register_syncs SET try_again_at = NULL WHERE state = 'waiting'");
            await host.Job().RunOnceAsync(default);
        }

        well = true;
        await host.Storage.ScalarAsync("UPDATE register_syncs SET try_again_at = NULL WHERE state = 'waiting'");
        await host.Job().RunOnceAsync(default);
        var last = await host.RunAsync("plant");
        Assert.Equal((RegisterSyncState.Done, 0L), (last.State, last.Refused));
        Assert.Equal(rows.Select(r => $"A-{r.Key} state {r.Value}").Order(StringComparer.Ordinal), await host.InServiceAsync());
        Assert.Equal((0L, 0L, (long)rows.Count), ((await host.RunAsync("plant")) is var again ? again.Created : -1, again.Changed, again.Unchanged));
    }

    private static string RowOf(int i, int state) => string.Create(CultureInfo.InvariantCulture, $$"""{"id":"A-{{i}}","name":"state {{state}}"}""");

    private static Task PageAsync(HttpContext context) =>
        WriteAsync(context, Page(Rows.Skip((Number(context, "page", 1) - 1) * 50).Take(50), total: Rows.Length));

    private static async Task FaultAsync(HttpContext context, string fault)
    {
        switch (fault)
        {
            case "throttled":
                context.Response.StatusCode = 429;
                context.Response.Headers.RetryAfter = "600";
                break;
            case "garbage":
                await WriteAsync(context, "{\"items\":[{\"id\":\u0001");
                break;
            case "broken-off":
                context.Response.ContentType = "application/json";
                context.Response.ContentLength = 10_000;
                await context.Response.WriteAsync("{\"items\":[{\"id\":\"A-1\"");
                context.Abort();
                break;
            case "slow":
                await Task.Delay(TimeSpan.FromSeconds(20), context.RequestAborted).ContinueWith(_ => { }, TaskScheduler.Default);
                break;
            case "login-page":
                await WriteAsync(context, "<html>please log in</html>", "text/html");
                break;
            case "forbidden-redirect":
                context.Response.Redirect("http://169.254.169.254/latest/meta-data");
                break;
            default:
                context.Response.StatusCode = fault switch { "refused" => 401, "gone" => 404, _ => 500 };
                break;
        }
    }
}
