using Npgsql;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Hosting;
using TagService.Storage.Registers;
using TagService.Storage.Tables;
using TagService.Worker.Registers;
using static TagService.Service.Tests.Registers.FaultyRegister;

namespace TagService.Service.Tests.Syncs;

/// <summary>Several workers, and workers that die. Rows are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class SyncWorkersTests(TestDatabase server)
{
    private static readonly string[] Rows = [.. Enumerable.Range(0, 1000).Select(Row)];

    [Fact]
    public async Task Runs_TwoWorkersAtOnce_AreEachTakenOnce()
    {
        await using var register = await StartAsync((context, _) => PageAsync(context));
        await using var host = await SyncHost.StartAsync(server, "workers_two");
        string[] names = ["a", "b", "c", "d"];
        foreach (var name in names)
        {
            // Each lists the same assets: writers meet in every row.
            await host.SaveAsync(name, SyncHost.Pages(register));
            await host.RequestAsync(name);
        }

        var taken = await Task.WhenAll(host.Job().RunOnceAsync(default), host.Job().RunOnceAsync(default));
        Assert.Equal(4, taken.Sum());
        Assert.Equal(4L, await host.Storage.CountAsync("register_syncs WHERE state = 'done' AND rows = 1000 AND created + changed + unchanged = 1000"));
        Assert.Equal(1000L, await host.Storage.ScalarAsync("SELECT sum(created)::bigint FROM register_syncs"));
        Assert.Equal(1000L, await host.Storage.CountAsync("changes WHERE kind = 'asset' AND action = 'created'"));
    }

    [Fact]
    public async Task Run_WorkerTakenForDead_NoticesAndWritesNothingMore()
    {
        await using var register = await StartAsync((context, _) => PageAsync(context));
        await using var host = await SyncHost.StartAsync(server, "workers_dead");
        await host.SaveAsync("plant", SyncHost.Pages(register));
        var id = await host.RequestAsync("plant");
        var syncs = host.Syncs(TimeSpan.FromMilliseconds(200));
        var slow = (await syncs.ClaimAsync(_ => TimeSpan.FromDays(7), default))!;
        var (source, mapper, reader) = RegisterSettingsException.Open(slow, host.Readers);
        var run = new RegisterSyncRun(slow, mapper, new(source.ToString()), host.Writer(syncs), TimeProvider.System);
        await using var groups = PageGroup.ReadAsync(reader, null, default).GetAsyncEnumerator();
        Assert.True(await groups.MoveNextAsync());
        await run.WriteAsync(groups.Current, default);
        await Task.Delay(400);

        Assert.Equal(1, await host.Job().RunOnceAsync(default));
        Assert.False(await syncs.KeepAsync(slow, default));
        await Assert.ThrowsAsync<RegisterSyncLostException>(() => run.WriteAsync(groups.Current, default));
        await Assert.ThrowsAsync<RegisterSyncLostException>(() => host.Writer(syncs).FinishAsync(slow, true, default, 1, default));
        await syncs.FailAsync(slow, new("late", "too late"), default);
        await syncs.GiveBackAsync(slow, null, null, default);
        var done = await host.FindAsync(id);
        Assert.Equal((RegisterSyncState.Done, 1000L, 1000L), (done.State, done.Rows, done.Created));
    }

    [Fact]
    public async Task Run_DatabaseConnectionsKilledAgainAndAgain_EndsWithEveryRowOnce()
    {
        var (host, stop) = (await SyncHost.StartAsync(server, "workers_kill"), new CancellationTokenSource());
        await using var disposing = host;
        await using var register = await StartAsync(async (context, _) =>
        {
            await Task.Delay(30);
            await PageAsync(context);
        });
        await host.SaveAsync("plant", SyncHost.Pages(register));
        var id = await host.RequestAsync("plant");
        var killing = Task.Run(async () =>
        {
            while (!stop.IsCancellationRequested)
            {
                await Task.Delay(60);
                await host.Storage.ScalarAsync("SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid() AND random() < 0.5");
            }
        });
        for (var i = 0; i < 60 && (await TryFindAsync(host, id))?.State != RegisterSyncState.Done; i++)
        {
            // A connection of the pool may still be one that was killed.
            if (i == 40)
                await stop.CancelAsync();
            await TryAsync(() => host.Storage.ScalarAsync("UPDATE register_syncs SET try_again_at = NULL, claimed_until = NULL WHERE state IN ('waiting', 'running')"));
            await TryAsync(() => host.Job().RunOnceAsync(default));
        }

        await stop.CancelAsync();
        await TryAsync(() => killing);
        NpgsqlConnection.ClearAllPools();
        var done = await host.FindAsync(id);
        Assert.Equal((RegisterSyncState.Done, 1000L, 1000L, 0L, 0L), (done.State, done.Rows, done.Created, done.Changed, done.Refused));
        Assert.Equal(1000L, await host.Storage.CountAsync("changes WHERE kind = 'asset'"));
    }

    /// <summary>kill -9 of the process in the middle of a run; the next process goes on where it was.</summary>
    [Fact]
    public async Task Run_ProcessKilledInTheMiddle_IsFinishedByTheNext()
    {
        var reached = new TaskCompletionSource();
        await using var register = await StartAsync(async (context, _) =>
        {
            var page = Number(context, "page", 1);
            await Task.Delay(100);
            if (page == 12)
                reached.TrySetResult();
            await PageAsync(context);
        });
        await using var host = await SyncHost.StartAsync(server, "workers_process");
        await host.SaveAsync("plant", SyncHost.Pages(register));
        var id = await host.RequestAsync("plant");
        string[] args =
        [
            "--Roles=worker", "--Urls=http://127.0.0.1:0", $"--ConnectionStrings:TagService={host.Storage.ConnectionString}", "--Worker:PollSeconds=1",
            "--Registers:Http:AllowedHttpHosts:0=127.0.0.1", "--Registers:Http:AllowedNetworks:0=127.0.0.1/32",
        ];
        await using (var first = ServiceProcess.Start(args))
        {
            await reached.Task.WaitAsync(TimeSpan.FromSeconds(90));
            first.Signal("KILL");
            await first.WaitAsync();
        }

        var killed = await host.FindAsync(id);
        Assert.Equal(RegisterSyncState.Running, killed.State);
        Assert.InRange(killed.Rows, 1, 600);
        // Nobody waits a minute in a test for the dead to be taken for dead.
        await host.Storage.ScalarAsync("UPDATE register_syncs SET claimed_until = now()");
        var asked = register.Requests.Count;
        await using (var second = ServiceProcess.Start(args))
        {
            for (var i = 0; i < 300 && (await host.FindAsync(id)).State != RegisterSyncState.Done; i++)
                await Task.Delay(200);
            second.Signal("TERM");
            await second.WaitAsync();
        }

        var done = await host.FindAsync(id);
        Assert.Equal((RegisterSyncState.Done, 1000L, 1000L), (done.State, done.Rows, done.Created));
        Assert.Equal(1000L, await host.Storage.CountAsync("changes WHERE kind = 'asset'"));
        Assert.DoesNotContain(register.Requests.Skip(asked), r => r.Path.Contains("page=1&", StringComparison.Ordinal));
    }

    private static async Task<RegisterSyncRow?> TryFindAsync(SyncHost host, long id)
    {
        try
        {
            return await host.FindAsync(id);
        }
        catch (Exception e) when (IsOfTheDatabase(e))
        {
            return null;
        }
    }

    private static async Task TryAsync(Func<Task> work)
    {
        try
        {
            await work();
        }
        catch (Exception e) when (IsOfTheDatabase(e))
        {
            // The connection was killed: that is the test.
        }
    }

    private static bool IsOfTheDatabase(Exception e) =>
        e is System.Data.Common.DbException or InvalidOperationException { InnerException: System.Data.Common.DbException }
            or Microsoft.EntityFrameworkCore.Storage.RetryLimitExceededException or Microsoft.EntityFrameworkCore.DbUpdateException;

    private static Task PageAsync(Microsoft.AspNetCore.Http.HttpContext context) =>
        WriteAsync(context, Page(Rows.Skip((Number(context, "page", 1) - 1) * 50).Take(50), total: Rows.Length));
}
