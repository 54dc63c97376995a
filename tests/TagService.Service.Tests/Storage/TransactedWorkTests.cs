using TagService.Domain.TagClasses;
using TagService.Service.Tests.Database;
using TagService.Storage;
using TagService.Storage.Idempotency;
using TagService.Storage.Tables;

namespace TagService.Service.Tests.Storage;

[Collection(TestDatabase.Collection)]
public sealed class TransactedWorkTests(TestDatabase server)
{
    private static IdempotencyKey Key(string body) => IdempotencyKey.Of("putThing", "k-1", "/v1/things/1", body);

    [Fact]
    public async Task Run_OneKeySentEightTimesAtOnceByTwoProcesses_WorksOnceAndAnswersAlike()
    {
        await using var one = await StorageServices.CreateMigratedAsync(server, "work_once");
        await using var two = StorageServices.On(one.ConnectionString);
        var worked = 0;
        var outcomes = await Task.WhenAll(Enumerable.Range(0, 8).Select(i => (i % 2 == 0 ? one : two).RunAsync(Key("a"), async (c, ct) =>
        {
            var nth = Interlocked.Increment(ref worked);
            c.Add(Row("cable-flag"));
            await c.SaveChangesAsync(ct);
            return new StoredAnswer(201, $"{{\"nth\":{nth}}}", "/v1/things/1");
        })));

        Assert.Equal(1, worked);
        Assert.All(outcomes, o => Assert.Equal(new StoredAnswer(201, "{\"nth\":1}", "/v1/things/1"), Assert.IsType<WorkOutcome.Done>(o).Answer));
        Assert.Single(outcomes, o => o is WorkOutcome.Done { Before: false });
        Assert.Equal(1L, await one.CountAsync("tag_class_overlays"));
    }

    [Fact]
    public async Task Run_KeyWithAnotherBody_DoesNothing()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "work_reused");
        await storage.RunAsync(Key("a"), (_, _) => Task.FromResult<StoredAnswer?>(new(200, "{}")));
        Assert.IsType<WorkOutcome.KeyReused>(await storage.RunAsync(Key("b"), (_, _) => throw new InvalidOperationException("must not run")));
    }

    [Fact]
    public async Task Run_WorkRefusesOrThrows_KeepsNothingAndLeavesTheKeyFree()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "work_refused");
        Assert.IsType<WorkOutcome.Refused>(await storage.RunAsync(Key("a"), async (c, ct) =>
        {
            c.Add(Row("cable-flag"));
            await c.SaveChangesAsync(ct);
            return null;
        }));
        await Assert.ThrowsAsync<NotSupportedException>(() => storage.RunAsync(Key("a"), async (c, ct) =>
        {
            c.Add(Row("cable-flag"));
            await c.SaveChangesAsync(ct);
            throw new NotSupportedException();
        }));
        Assert.Equal((0L, 0L, 0L), (await storage.CountAsync("tag_class_overlays"), await storage.CountAsync("changes"), await storage.CountAsync("idempotent_requests")));
        Assert.IsType<WorkOutcome.Done>(await storage.RunAsync(Key("other body"), (_, _) => Task.FromResult<StoredAnswer?>(new(200, "{}"))));
    }

    [Fact]
    public async Task Run_ConnectionLostWhileCommitting_IsDoneAgainOnlyUnderAKey()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "work_commit");
        await EndFirstConnectionAtCommitAsync(storage);
        Assert.IsType<WorkOutcome.Done>(await storage.RunAsync(Key("a"), AddRowAsync));
        Assert.Equal((1L, 1L), (await storage.CountAsync("tag_class_overlays"), await storage.CountAsync("idempotent_requests")));

        await storage.ScalarAsync("DELETE FROM tag_class_overlays");
        await storage.ScalarAsync("ALTER SEQUENCE commits RESTART");
        await Assert.ThrowsAsync<CommitUncertainException>(() => storage.RunAsync(null, AddRowAsync));
        Assert.Equal(0L, await storage.CountAsync("tag_class_overlays"));

        static async Task<StoredAnswer?> AddRowAsync(TagServiceDbContext context, CancellationToken cancellationToken)
        {
            context.Add(Row("cable-flag"));
            await context.SaveChangesAsync(cancellationToken);
            return new(200, "{}");
        }
    }

    // Deferred to the commit; a sequence counts on although its transaction is gone.
    private static Task<object?> EndFirstConnectionAtCommitAsync(StorageServices storage) => storage.ScalarAsync(
        """
        CREATE SEQUENCE commits;
        CREATE FUNCTION end_first() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
          IF nextval('commits') = 1 THEN PERFORM pg_terminate_backend(pg_backend_pid()); END IF;
          RETURN NULL;
        END $$;
        CREATE CONSTRAINT TRIGGER at_commit AFTER INSERT ON tag_class_overlays DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION end_first();
        """);

    private static TagClassOverlayRow Row(string id) =>
        new() { Id = id, Overlay = new TagClassOverlay { Id = id, ApplicationMinutes = 3 }, UpdatedAt = DateTimeOffset.UnixEpoch };
}

internal static class TransactedWorkExtensions
{
    public static async Task<WorkOutcome> RunAsync(
        this StorageServices storage, IdempotencyKey? key, Func<TagServiceDbContext, CancellationToken, Task<StoredAnswer?>> work) =>
        await storage.WithScopedAsync<TransactedWork, WorkOutcome>(w => w.RunAsync(key, work, CancellationToken.None));
}
