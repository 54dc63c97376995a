using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TagService.Domain.TagClasses;
using TagService.Service.Tests.Database;
using TagService.Storage;
using TagService.Storage.Changes;
using TagService.Storage.Tables;

namespace TagService.Service.Tests.Storage;

[Collection(TestDatabase.Collection)]
public sealed class ChangesTests(TestDatabase server)
{
    [Fact]
    public async Task Changes_CreateChangeDelete_AreWrittenWithBeforeAndAfter()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "changes_life");
        await SaveAsync(storage, c => c.Add(Row("cable-flag", 3)));
        await SaveAsync(storage, async c => (await c.TagClassOverlays.SingleAsync()).Overlay = Overlay("cable-flag", 4));
        await SaveAsync(storage, async c => c.Remove(await c.TagClassOverlays.SingleAsync()));

        var rows = await ChangesAsync(storage);
        Assert.Equal([ChangeAction.Created, ChangeAction.Changed, ChangeAction.Deleted], rows.Select(r => r.Action));
        Assert.All(rows, r => Assert.Equal(("tag-class", "cable-flag", ChangeOrigin.Service), (r.Kind, r.Key, r.Actor)));
        Assert.Equal([null, 3, 4], rows.Select(r => Minutes(r.Before)));
        Assert.Equal([3, 4, null], rows.Select(r => Minutes(r.After)));
    }

    [Fact]
    public async Task Changes_SameValuesSavedAgain_AreNone()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "changes_same");
        await SaveAsync(storage, c => c.Add(Row("cable-flag", 3)));
        await SaveAsync(storage, async c =>
        {
            var row = await c.TagClassOverlays.SingleAsync();
            c.Entry(row).State = EntityState.Modified;
        });
        Assert.Single(await ChangesAsync(storage));
    }

    [Fact]
    public async Task Changes_SaveThatFails_AreNoneAndTheNextSaveWritesOne()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "changes_failed");
        await SaveAsync(storage, c => c.Add(Row("cable-flag", 3)));
        await storage.WithContextAsync(async c =>
        {
            c.Add(Row("cable-flag", 5));
            await Assert.ThrowsAsync<DbUpdateException>(() => c.SaveChangesAsync());
            Assert.Single(await ChangesAsync(storage));
            c.ChangeTracker.Entries<TagClassOverlayRow>().Single().State = EntityState.Detached;
            c.Add(Row("label-paper", 5));
            return await c.SaveChangesAsync();
        });
        Assert.Equal(["cable-flag", "label-paper"], (await ChangesAsync(storage)).Select(r => r.Key));
    }

    private static Task<List<ChangeRow>> ChangesAsync(StorageServices storage) =>
        storage.WithContextAsync(c => c.Changes.AsNoTracking().OrderBy(r => r.Id).ToListAsync());

    private static Task<int> SaveAsync(StorageServices storage, Action<TagServiceDbContext> change) => SaveAsync(storage, c =>
    {
        change(c);
        return Task.CompletedTask;
    });

    private static Task<int> SaveAsync(StorageServices storage, Func<TagServiceDbContext, Task> change) => storage.WithContextAsync(async c =>
    {
        await change(c);
        return await c.SaveChangesAsync();
    });

    private static double? Minutes(string? json) =>
        json is null ? null : JsonDocument.Parse(json).RootElement.GetProperty("overlay").GetProperty("applicationMinutes").GetDouble();

    private static TagClassOverlayRow Row(string id, double minutes) =>
        new() { Id = id, Overlay = Overlay(id, minutes), UpdatedAt = DateTimeOffset.UnixEpoch };

    private static TagClassOverlay Overlay(string id, double minutes) => new() { Id = id, ApplicationMinutes = minutes };
}
