using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using TagService.Domain.Registers;
using TagService.Intake.Registers;
using TagService.Service.Tests.Attachments;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Storage;
using TagService.Storage.Attachments;
using TagService.Storage.Bulk;
using TagService.Storage.Corrections;
using TagService.Storage.Tables;
using TagService.Worker;
using TagService.Worker.Registers;

namespace TagService.Service.Tests.Registers;

/// <summary>Tag columns of registers that are believed become attachments. Registers, assets and identities are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class FollowRegisterTagsTests(TestDatabase server)
{
    private const string Source = "believed";

    [Fact]
    public async Task RunOnce_ColumnNamesATag_StartsItOnceNotLaterThanItWasSeen()
    {
        await using var storage = await NewAsync("follow_start");
        var tag = AttachmentClient.NewTag();
        await ListAsync(storage, ("a", tag), ("b", "no identity"), ("c", null));
        var seen = DateTimeOffset.UtcNow;
        var job = Job(storage);

        Assert.Equal(new FollowedTags(1, 0, 0, 0), await job.RunOnceAsync(default));
        Assert.Equal(FollowedTags.None, await job.RunOnceAsync(default));
        Assert.Equal(FollowedTags.None, await Job(storage).RunOnceAsync(default));

        var row = Assert.Single(await AllAsync(storage));
        Assert.Equal(("a", null, null), (row.AssetId, row.StartNotBefore, row.EndReason));
        Assert.InRange(row.StartNotAfter!.Value, seen.AddMinutes(-1), seen);
        Assert.True(row.TakenOver);
        Assert.Equal($"register-source:{Source}", await storage.ScalarAsync("SELECT actor FROM changes WHERE kind = 'attachment'"));
        Assert.Equal(tag, await storage.ScalarAsync("SELECT epc_hex FROM tags"));
    }

    [Fact]
    public async Task RunOnce_ColumnNamesAnotherTag_EndsThePreviousOneAndOnlyThat()
    {
        await using var storage = await NewAsync("follow_replace");
        var (first, second, fitted) = (AttachmentClient.NewTag(), AttachmentClient.NewTag(), AttachmentClient.NewTag());
        await ListAsync(storage, ("a", first));
        var job = Job(storage);
        await job.RunOnceAsync(default);
        await RecordAsync(storage, "a", fitted);
        var firstSeen = (DateTime)(await storage.ScalarAsync("SELECT at FROM changes WHERE kind = 'asset' AND key = 'a'"))!;
        await ListAsync(storage, ("a", second));

        Assert.Equal(new FollowedTags(1, 1, 0, 0), await job.RunOnceAsync(default));

        var rows = await AllAsync(storage);
        var (ended, started) = (rows.Single(r => r.EndReason is not null), rows.Single(r => r.StartNotBefore is not null));
        Assert.Equal(RegisterTagFollower.EndReason, ended.EndReason);
        Assert.Equal(3, rows.Count);
        // Between the last time the column said otherwise and the first time it said so.
        Assert.Equal((firstSeen, firstSeen), (started.StartNotBefore!.Value.UtcDateTime, ended.EndNotBefore!.Value.UtcDateTime));
        Assert.Equal(started.StartNotAfter, ended.EndNotAfter);
        Assert.True(started.StartNotAfter > started.StartNotBefore);

        // And back again: a new statement, so a new attachment.
        await ListAsync(storage, ("a", first));
        Assert.Equal(new FollowedTags(1, 1, 0, 0), await job.RunOnceAsync(default));
        Assert.Equal(4, (await AllAsync(storage)).Count);
    }

    [Fact]
    public async Task RunOnce_TagIsOnAnotherAsset_ChangesNothingAndListsTheConflict()
    {
        await using var storage = await NewAsync("follow_conflict");
        var (tag, own) = (AttachmentClient.NewTag(), AttachmentClient.NewTag());
        await ListAsync(storage, ("a", own), ("b", null));
        var job = Job(storage);
        await job.RunOnceAsync(default);
        await RecordAsync(storage, "b", tag);
        await ListAsync(storage, ("a", tag));

        Assert.Equal(new FollowedTags(0, 0, 1, 0), await job.RunOnceAsync(default));

        Assert.Equal(2, await storage.CountAsync("attachments WHERE end_reason IS NULL"));
        var filter = new CorrectionFilter { Told = [AssetSources.Push], Followed = [Source] };
        var listed = await storage.Get<RegisterCorrections>().PageAsync(filter, "", 10, default);
        var conflict = Assert.Single(listed);
        Assert.Equal(("a", CorrectionKind.Conflict, "b"), (conflict.AssetId, conflict.Kind, Assert.Single(conflict.Attachments).AssetId));
    }

    [Fact]
    public async Task RunOnce_AttachmentEndedByAPersonAfterwards_StaysEndedUntilTheColumnChanges()
    {
        await using var storage = await NewAsync("follow_person");
        var (tag, other) = (AttachmentClient.NewTag(), AttachmentClient.NewTag());
        await ListAsync(storage, ("a", tag));
        await Job(storage).RunOnceAsync(default);
        await storage.WithContextAsync(async c =>
        {
            var row = await c.Attachments.SingleAsync();
            row.EndReason = "fell-off";
            return await c.SaveChangesAsync();
        });

        Assert.Equal(FollowedTags.None, await Job(storage).RunOnceAsync(default));
        Assert.Equal(0, await storage.CountAsync("attachments WHERE end_reason IS NULL"));

        await ListAsync(storage, ("a", other));
        Assert.Equal(new FollowedTags(1, 0, 0, 0), await Job(storage).RunOnceAsync(default));
        await ListAsync(storage, ("a", tag));
        Assert.Equal(new FollowedTags(1, 1, 0, 0), await Job(storage).RunOnceAsync(default));
    }

    [Fact]
    public async Task RunOnce_SeveralWorkersKilledNowAndThen_RecordEachStatementOnce()
    {
        await using var storage = await NewAsync("follow_many");
        string[] ids = [.. Enumerable.Range(0, 1300).Select(i => $"a{i:0000}")];
        await ListAsync(storage, [.. ids.Select(id => (id, (string?)AttachmentClient.NewTag()))]);
        await using var second = StorageServices.On(storage.ConnectionString);

        await Task.WhenAll(Enumerable.Range(0, 4).Select(async n =>
        {
            using var kill = new CancellationTokenSource(TimeSpan.FromMilliseconds(30 * (n + 1)));
            try
            {
                await Job(n % 2 == 0 ? storage : second).RunOnceAsync(kill.Token);
            }
            catch (OperationCanceledException)
            {
                // Killed in the middle.
            }
        }));
        await Task.WhenAll(Job(storage).RunOnceAsync(default), Job(second).RunOnceAsync(default));

        Assert.Equal(ids.Length, await storage.CountAsync("attachments"));
        Assert.Equal(ids.Length, await storage.CountAsync("changes WHERE kind = 'attachment'"));
        Assert.Equal((long)ids.Length, await storage.ScalarAsync("SELECT count(DISTINCT asset_id) FROM attachments WHERE end_reason IS NULL"));
    }

    [Fact]
    public async Task RunOnce_ColumnsWithoutIdentityKept_GetTheirs()
    {
        await using var storage = await NewAsync("follow_fill");
        await ListAsync(storage, ("a", AttachmentClient.NewTag()), ("b", "none"));
        // As an older program version leaves them.
        await storage.ScalarAsync("UPDATE assets SET register_tag_key = NULL");

        await Job(storage).RunOnceAsync(default);

        Assert.Equal("a", await storage.ScalarAsync("SELECT string_agg(asset_id, ' ') FROM assets WHERE register_tag_key LIKE '8004:9521141%'"));
    }

    private static FollowRegisterTags Job(StorageServices storage) => new(
        storage.Get<IServiceScopeFactory>(), storage.Get<RegisterTagFollower>(), new WorkerOptions(), TimeProvider.System, NullLogger<FollowRegisterTags>.Instance);

    private static Task<List<AttachmentRow>> AllAsync(StorageServices storage) => storage.WithContextAsync(c => c.Attachments.AsNoTracking().ToListAsync());

    private static Task<IReadOnlyList<AssetWritten>> ListAsync(StorageServices storage, params (string AssetId, string? Tag)[] assets) => storage.Get<AssetBulkWriter>().WriteAsync(
        [.. assets.Select(a => new AssetToLoad(StorageServices.Asset(a.AssetId), null) { RegisterTag = a.Tag })], Source, default);

    private static Task<IReadOnlyList<BatchResult>> RecordAsync(StorageServices storage, string asset, string tag)
    {
        var now = DateTimeOffset.UtcNow;
        var key = RegisterTagKey.Of(tag)!;
        return storage.Get<AttachmentBatchWriter>().WriteAsync(
            [new(new(key, tag, null, null), new(Guid.NewGuid(), new() { Id = Guid.CreateVersion7(now), Tag = key, AssetId = asset, RecordedAt = now }, null))], createAssets: false, _ => null, default);
    }

    private async Task<StorageServices> NewAsync(string name)
    {
        var storage = await StorageServices.CreateMigratedAsync(server, name);
        var source = new RegisterSource
        {
            Http = new() { Address = new("https://register.example/") }, Mapping = new() { Rows = [new() { Target = "/assetId", Source = "/id" }] }, TagAuthority = TagAuthority.Register,
        };
        await storage.WithContextAsync(async c =>
        {
            c.Add(new RegisterSourceRow
            {
                Name = Source, Settings = RegisterSourceJson.Write(source), SettingsHash = RegisterSourceJson.HashOf(source), IsEnabled = true, IsFromConfiguration = false,
                UpdatedAt = DateTimeOffset.UtcNow,
            });
            return await c.SaveChangesAsync();
        });
        return storage;
    }
}
