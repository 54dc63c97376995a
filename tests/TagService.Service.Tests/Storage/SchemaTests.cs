using Microsoft.EntityFrameworkCore;
using TagService.Service.Tests.Database;
using TagService.Storage.Schema;

namespace TagService.Service.Tests.Storage;

[Collection(TestDatabase.Collection)]
public sealed class SchemaTests(TestDatabase server)
{
    [Fact]
    public async Task Migrate_EmptyDatabase_BecomesCurrent()
    {
        await using var storage = await StorageServices.CreateEmptyAsync(server, "schema_empty");
        var before = await storage.Get<DatabaseStateReader>().ReadAsync(default);
        var ran = await storage.Get<DatabaseMigrator>().MigrateAsync(default);
        var after = await storage.Get<DatabaseStateReader>().ReadAsync(default);

        Assert.Equal((DatabaseCondition.Empty, false), (before.Condition, before.IsUsable));
        Assert.Contains(ran, id => id.EndsWith("_Initial", StringComparison.Ordinal));
        Assert.Equal((DatabaseCondition.Current, true), (after.Condition, after.IsUsable));
        Assert.Empty(await storage.Get<DatabaseMigrator>().MigrateAsync(default));
    }

    [Fact]
    public async Task Migrate_ThreeProcessesAtOnce_OneRunsIt()
    {
        await using var first = await StorageServices.CreateEmptyAsync(server, "schema_race");
        await using var second = StorageServices.On(first.ConnectionString);
        await using var third = StorageServices.On(first.ConnectionString);
        StorageServices[] all = [first, second, third];

        var ran = await Task.WhenAll(all.Select(s => Task.Run(() => s.Get<DatabaseMigrator>().MigrateAsync(default))));

        Assert.Single(ran, r => r.Count > 0);
        Assert.Equal(0L, await first.ScalarAsync("SELECT count(*) FROM pg_locks WHERE locktype = 'advisory' AND database = (SELECT oid FROM pg_database WHERE datname = current_database())"));
    }

    /// <summary>Somebody changed the model and made no migration: then this fails.</summary>
    [Fact]
    public async Task Model_AgainstLastMigration_HasNoChange()
    {
        await using var storage = StorageServices.On("Host=localhost;Database=never_opened");
        Assert.False(await storage.WithContextAsync(c => Task.FromResult(c.Database.HasPendingModelChanges())));
    }

    [Fact]
    public async Task Names_OfTablesAndColumns_AreSnakeCase()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "schema_names");
        Assert.Equal(
            "",
            await storage.ScalarAsync(
                """
                SELECT coalesce(string_agg(table_name || '.' || column_name, ', '), '') FROM information_schema.columns
                WHERE table_schema = 'public' AND (table_name || column_name) !~ '^[a-z][a-z0-9_]*$'
                """));
        Assert.Equal(26L, await storage.CountAsync("information_schema.tables WHERE table_schema = 'public'"));
    }

    [Theory]
    [InlineData("INSERT INTO schema_history VALUES ('99990101000000_FromTheFuture', '99')", DatabaseCondition.Newer, true)]
    [InlineData("UPDATE schema_history SET migration_id = '99990101000000_Elsewhere' WHERE migration_id LIKE '%_Initial'", DatabaseCondition.Older, false)]
    [InlineData("DELETE FROM schema_history", DatabaseCondition.Empty, false)]
    public async Task State_HistoryDiffersFromProgram_SaysHow(string change, DatabaseCondition expected, bool usable)
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, $"schema_{expected}");
        await storage.ScalarAsync(change);
        var state = await storage.Get<DatabaseStateReader>().ReadAsync(default);
        Assert.Equal((expected, usable), (state.Condition, state.IsUsable));
    }

    [Theory]
    [InlineData("Host=127.0.0.1;Port=1;Database=x;Username=u;Password=sesame-4711")]
    [InlineData("Host=no-such-host.invalid;Database=x;Username=u;Password=sesame-4711")] // RFC 6761: .invalid never resolves
    public async Task State_NoServer_IsUnreachableWithoutCredentials(string connectionString)
    {
        await using var storage = StorageServices.On(connectionString);
        var state = await storage.Get<DatabaseStateReader>().ReadAsync(default);
        Assert.Equal((DatabaseCondition.Unreachable, false), (state.Condition, state.IsUsable));
        Assert.DoesNotContain("sesame-4711", state.Explanation, StringComparison.Ordinal);
    }
}
