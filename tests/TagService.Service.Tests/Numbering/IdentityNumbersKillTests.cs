using System.Collections.Concurrent;
using Npgsql;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Storage;
using TagService.Storage.Numbering;

namespace TagService.Service.Tests.Numbering;

/// <summary>Connections that die at every moment: numbers may be lost, never repeated.</summary>
[Collection(TestDatabase.Collection)]
public sealed class IdentityNumbersKillTests(TestDatabase server)
{
    private const string KillSql =
        "SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity WHERE datname = current_database() AND application_name = 'taker'";

    [Fact]
    public async Task Take_ConnectionsKilledAllTheTime_NeverRepeats()
    {
        await using var killer = await StorageServices.CreateMigratedAsync(server, "numbers_killed");
        await using var one = StorageServices.On(Taker(killer));
        await using var two = StorageServices.On(Taker(killer));
        await killer.GivenRuleAsync("tools");
        using var done = new CancellationTokenSource();
        var killing = Task.Run(async () =>
        {
            var killed = 0L;
            while (!done.IsCancellationRequested)
            {
                killed += (long)(await killer.ScalarAsync(KillSql))!;
                await Task.Delay(3);
            }

            return killed;
        });

        var (numbers, failures) = (new ConcurrentQueue<long>(), 0);
        await Task.WhenAll(Enumerable.Range(0, 8).Select(worker => Task.Run(async () =>
        {
            for (var i = 0; i < 60; i++)
            {
                try
                {
                    foreach (var number in Assert.IsType<NumberOutcome.Taken>(await (worker % 2 == 0 ? one : two).TakeAsync("tools", 2)).Numbers)
                        numbers.Enqueue(number);
                }
                catch (NpgsqlException)
                {
                    Interlocked.Increment(ref failures);
                }
            }
        })));
        await done.CancelAsync();

        var killedConnections = await killing;
        Assert.True(killedConnections > 50, $"only {killedConnections} connections were killed");
        Assert.NotEmpty(numbers);
        Assert.Equal(numbers.Count, numbers.Distinct().Count());
        // Whatever was told is behind the counter, so that the next process goes on above it.
        await using var next = StorageServices.On(killer.ConnectionString);
        Assert.True(await next.TakeOneAsync("tools") > numbers.Max());
    }

    // The same at each moment in turn: while the row is being counted up, while that is being committed, and with a number told.
    [Theory]
    [InlineData("BEFORE UPDATE ON numbering_rules", "")]
    [InlineData("AFTER UPDATE ON numbering_rules", "DEFERRABLE INITIALLY DEFERRED")]
    public async Task Take_KilledWithinAStatement_IsTakenAnewOrFails(string when, string deferred)
    {
        await using var killer = await StorageServices.CreateMigratedAsync(server, $"numbers_killed_{deferred.Length}");
        await killer.GivenRuleAsync("tools");
        await using var before = StorageServices.On(Taker(killer));
        var told = await before.TakeOneAsync("tools");
        await killer.ScalarAsync(
            $"""
            CREATE FUNCTION wait() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN PERFORM pg_sleep(0.4); RETURN NEW; END $$;
            CREATE {(deferred.Length > 0 ? "CONSTRAINT " : "")}TRIGGER wait {when} {deferred} FOR EACH ROW EXECUTE FUNCTION wait();
            """);

        var taking = before.TakeAsync("tools", 1);
        long killed;
        do
        {
            killed = (long)(await killer.ScalarAsync(KillSql + " AND wait_event = 'PgSleep'"))!;
        }
        while (killed == 0 && !taking.IsCompleted);

        Assert.Equal(1, killed);
        var number = Assert.IsType<NumberOutcome.Taken>(await taking).First;
        Assert.True(number > told);
        await killer.ScalarAsync("DROP TRIGGER wait ON numbering_rules");
        await using var after = StorageServices.On(killer.ConnectionString);
        Assert.True(await after.TakeOneAsync("tools") > number);
    }

    private static string Taker(StorageServices storage) => new NpgsqlConnectionStringBuilder(storage.ConnectionString) { ApplicationName = "taker" }.ConnectionString;
}
