using Npgsql;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Hosting;
using TagService.Service.Tests.Storage;
using Xunit.Abstractions;
using static TagService.Service.Tests.Attachments.AttachmentClient;

namespace TagService.Service.Tests.Attachments;

/// <summary>
/// A real process is killed (SIGKILL) after each statement in turn, the commit among them, before it hears of it; a new process gets
/// the same request: exactly one result, and nothing half done in between.
/// </summary>
[Collection(TestDatabase.Collection)]
public sealed class AttachmentKillTests(TestDatabase server, ITestOutputHelper output)
{
    [Fact]
    public async Task StartWithEndPrevious_KilledAfterEachStatement_HasExactlyOneResult()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "attach_kill");
        await using var proxy = Proxy(storage);
        var killed = await KillAtEachAsync(storage, proxy, async (client, round) =>
        {
            var asset = await client.NewAssetAsync();
            var old = await client.StartedAsync(asset, $$"""{"identity":"{{NewTag()}}","startAt":"{{Day(1)}}"}""");
            var body = $$"""{"identity":"{{NewTag()}}","tidHex":"E2801160200073C5","startAt":"{{Day(5)}}","endPrevious":{"reason":"damaged","at":"{{Day(5)}}"} }""";
            return new(
                c => c.StartAsync(asset, body, $"kill-{round}"),
                async c =>
                {
                    // One that was there before, the old one, the new one.
                    var items = await c.OfAssetAsync(asset);
                    Assert.Equal(3, items.Count);
                    Assert.Equal("damaged", (string?)items.Single(i => (string?)i!["id"] == old.Id())!["endReason"]);
                    Assert.Single(items, i => i!["endReason"] is null);
                    var changes = await storage.ScalarAsync($"SELECT string_agg(action, ',' ORDER BY id) FROM changes WHERE kind = 'attachment' AND after ->> 'assetId' = '{asset}'");
                    Assert.Equal("created,created,changed,created", changes);
                },
                async () => Assert.Contains(
                    (long)(await storage.ScalarAsync($"SELECT count(*) + 10 * count(*) FILTER (WHERE end_reason = 'damaged') FROM attachments WHERE asset_id = '{asset}'"))!,
                    new[] { 2L, 13L }));
        });
        Assert.True(killed >= 8, $"only {killed} statements");
    }

    [Fact]
    public async Task Batch_KilledAfterEachStatement_TakesEachLineOnceWhenSentAgain()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "attach_kill_batch");
        await using var proxy = Proxy(storage);
        var killed = await KillAtEachAsync(storage, proxy, async (client, _) =>
        {
            // Two chunks: an end and new pairs. In CSV, whose lines are gathered until a chunk is full.
            var asset = await client.NewAssetAsync();
            var old = NewTag();
            await client.StartedAsync(asset, $$"""{"identity":"{{old}}"}""");
            string[] lines =
            [
                "identity,assetId,startAt,endReason", $"{old},{asset},,fell-off",
                .. Enumerable.Range(0, 1_050).Select(_ => $"{NewTag()},{asset},{Day(1)},"),
            ];
            var body = string.Join('\n', lines);
            return new(
                c => c.SendAsync(HttpMethod.Post, "/v1/attachments/batch", body, type: "text/csv"),
                async c =>
                {
                    var summary = (await c.BatchAsync(body, "?answers=refused", "text/csv")).Single()["summary"]!;
                    Assert.Equal((1_051, 1_051), ((int)summary["lines"]!, (int)summary["known"]!));
                    Assert.Equal(1_052L, await storage.ScalarAsync($"SELECT count(*) FROM attachments WHERE asset_id = '{asset}'"));
                    Assert.Equal(1_053L, await storage.ScalarAsync($"SELECT count(*) FROM changes WHERE kind = 'attachment' AND after ->> 'assetId' = '{asset}'"));
                },
                async () =>
                {
                    // Whole chunks only: 2 from before, and with them 999 or 1,050 new ones. Each with its change.
                    var rows = (long)(await storage.ScalarAsync($"SELECT count(*) FROM attachments WHERE asset_id = '{asset}'"))!;
                    Assert.Contains(rows, new[] { 2L, 1_001L, 1_052L });
                    Assert.Equal(rows + (rows > 2 ? 1 : 0), await storage.ScalarAsync($"SELECT count(*) FROM changes WHERE kind = 'attachment' AND after ->> 'assetId' = '{asset}'"));
                });
        });
        Assert.True(killed >= 12, $"only {killed} statements");
    }

    /// <returns>How often a process was killed.</returns>
    private async Task<int> KillAtEachAsync(StorageServices storage, StatementProxy proxy, Func<HttpClient, int, Task<Case>> prepare)
    {
        var service = await StartAsync(storage, proxy);
        try
        {
            for (var statements = 1; ; statements++)
            {
                var test = await prepare(service.Client, statements);
                proxy.LetThrough(statements);
                var sending = test.Send(service.Client);
                await Task.WhenAny(sending, proxy.Still);
                var seen = proxy.Statements;
                if (sending.IsCompleted && !proxy.Still.IsCompleted)
                {
                    // All went through: there is no later statement to be killed at.
                    proxy.Open();
                    Assert.True((await sending).IsSuccessStatusCode);
                    await test.Holds(service.Client);
                    output.WriteLine(string.Join('\n', seen));
                    return statements - 1;
                }

                service.Process.Signal("KILL");
                await Assert.ThrowsAnyAsync<Exception>(() => sending.ContinueWith(async s => (await s).EnsureSuccessStatusCode().Content.LoadIntoBufferAsync(), TaskScheduler.Default).Unwrap());
                await service.DisposeAsync();
                proxy.Open();
                await NobodyAtWorkAsync(storage);
                await test.HalfWay();

                service = await StartAsync(storage, proxy);
                using var again = await test.Send(service.Client);
                Assert.True(again.IsSuccessStatusCode, await again.Content.ReadAsStringAsync());
                await test.Holds(service.Client);
            }
        }
        finally
        {
            await service.DisposeAsync();
        }
    }

    private static StatementProxy Proxy(StorageServices storage)
    {
        var settings = new NpgsqlConnectionStringBuilder(storage.ConnectionString);
        return new(settings.Host!, settings.Port);
    }

    private static async Task<Service> StartAsync(StorageServices storage, StatementProxy proxy)
    {
        var settings = new NpgsqlConnectionStringBuilder(storage.ConnectionString)
        {
            Host = "127.0.0.1", Port = proxy.Port, SslMode = SslMode.Disable, GssEncryptionMode = GssEncryptionMode.Disable, ApplicationName = "killed",
        };
        var process = ServiceProcess.Start("--ConnectionStrings:TagService", settings.ConnectionString, "--Urls=http://127.0.0.1:0", "--Roles=api");
        var address = (await process.ReadUntilAsync("  Address ")).Split(' ')[^1];
        return new(process, new HttpClient { BaseAddress = new Uri(address) });
    }

    // The server notices a closed connection when it next looks: only then is everything rolled back or kept.
    private static async Task NobodyAtWorkAsync(StorageServices storage)
    {
        var limit = DateTime.UtcNow.AddSeconds(30);
        while ((long)(await storage.ScalarAsync("SELECT count(*) FROM pg_stat_activity WHERE application_name = 'killed'"))! > 0)
        {
            Assert.True(DateTime.UtcNow < limit, "A connection of the killed process is still there.");
            await Task.Delay(20);
        }
    }

    /// <summary>One request, what must hold when it was answered, and what may be in the database after a kill.</summary>
    private sealed record Case(Func<HttpClient, Task<HttpResponseMessage>> Send, Func<HttpClient, Task> Holds, Func<Task> HalfWay);

    private sealed record Service(ServiceProcess Process, HttpClient Client) : IAsyncDisposable
    {
        private bool _ended;

        public async ValueTask DisposeAsync()
        {
            if (_ended)
                return;
            _ended = true;
            Client.Dispose();
            await Process.DisposeAsync();
        }
    }
}
