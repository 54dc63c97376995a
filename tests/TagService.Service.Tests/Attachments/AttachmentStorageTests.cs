using System.Text.Json.Nodes;
using Npgsql;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Hosting;
using TagService.Service.Tests.Storage;
using static TagService.Service.Tests.Attachments.AttachmentClient;

namespace TagService.Service.Tests.Attachments;

/// <summary>What the database itself looks after, and what it keeps of every change.</summary>
[Collection(TestDatabase.Collection)]
public sealed class AttachmentStorageTests(TestDatabase server)
{
    // Written past the service, as no program of ours does.
    [Theory]
    [InlineData("'2024-01-01', '2024-01-01', NULL, NULL, NULL", "ux_attachments_open")]
    [InlineData("'2024-01-01', '2024-01-05', '2024-02-20', NULL, 'fell-off'", "ex_attachments_certain_periods")]
    [InlineData("NULL, '2024-01-20', '2024-01-21', NULL, 'fell-off'", "ex_attachments_certain_periods")]
    [InlineData("NULL, '2024-01-01', '2024-01-10', NULL, 'fell-off'", null)]
    [InlineData("NULL, '2024-01-20', '2024-01-19', NULL, 'fell-off'", null)]
    [InlineData("NULL, NULL, NULL, NULL, 'fell-off'", null)]
    [InlineData("NULL, NULL, '2024-01-19', NULL, NULL", "ck_attachments_end_with_reason")]
    [InlineData("'2024-01-20', '2024-01-19', NULL, NULL, 'fell-off'", "ck_attachments_start")]
    [InlineData("'2024-03-01', NULL, NULL, '2024-01-19', 'fell-off'", "ck_attachments_start_before_end")]
    public async Task Database_SecondAttachmentOfATag_IsRefusedWhereItCertainlyOverlaps(string bounds, string? constraint)
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "attach_constraint");
        await storage.CopyAsync([StorageServices.Asset("A")]);
        await storage.ScalarAsync("INSERT INTO tags (identity, first_recorded_at) VALUES ('t', now())");
        await InsertAsync("'2024-01-10', '2024-01-10', NULL, NULL, NULL");
        if (constraint is null)
        {
            await InsertAsync(bounds);
            return;
        }

        var refused = await Assert.ThrowsAsync<PostgresException>(() => InsertAsync(bounds));
        Assert.Equal(constraint, refused.ConstraintName);

        Task InsertAsync(string values) => storage.ScalarAsync(
            $"""
            INSERT INTO attachments (tag_id, id, asset_id, is_void, taken_over, recorded_at, start_not_before, start_not_after, end_not_before, end_not_after, end_reason)
            SELECT id, gen_random_uuid(), 'A', false, false, '2024-06-01', v.* FROM tags, (VALUES ({values})) AS x (a, b, c, d, e),
              LATERAL (SELECT x.a::timestamptz, x.b::timestamptz, x.c::timestamptz, x.d::timestamptz, x.e::text) AS v
            """);
    }

    [Fact]
    public async Task Changes_OfSinglesAndBatches_AreWrittenAlike()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "attach_changes");
        await storage.CopyAsync([StorageServices.Asset("A"), StorageServices.Asset("B")]);
        await using var host = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        const string said = "\"tagClassId\":\"hard-metal-mount-large\",\"labourMinutes\":7.5,\"fitterId\":\"f\",\"checkReaderKind\":\"handheld\",\"answeredAtM\":3,\"note\":\"ü\"";
        var single = await host.Client.StartedAsync("A", $$"""{"identity":"{{NewTag()}}","startAt":"{{Day(1)}}",{{said}}}""");
        await host.Client.PatchedAsync(single.Id(), $$"""{"endReason":"damaged","endAt":"{{Day(2)}}"}""");
        var tag = NewTag();
        await host.Client.BatchAsync($$"""{"identity":"{{tag}}","assetId":"A","startAt":"{{Day(1)}}",{{said}}}""");
        var batch = await host.Client.BatchAsync($$"""{"identity":"{{tag}}","assetId":"A","endReason":"damaged","endAt":"{{Day(2)}}"}""");

        var (one, other) = (await ChangesAsync(single.Id()), await ChangesAsync((string)batch[0]["attachmentId"]!));
        Assert.Equal(["created", "changed"], one.Select(c => (string?)c["action"]));
        Assert.Equal(one.Select(c => Comparable(c).ToJsonString()), other.Select(c => Comparable(c).ToJsonString()));
        Assert.All(one.Concat(other), c => Assert.Equal("unnamed-caller", (string?)c["actor"]));
        Assert.Equal("damaged", (string?)one[1]["after"]!["endReason"]);
        Assert.Null(one[1]["before"]!["endReason"]);

        async Task<List<JsonNode>> ChangesAsync(string id) =>
            [.. JsonNode.Parse((string)(await storage.ScalarAsync($"SELECT jsonb_agg(to_jsonb(c) ORDER BY id)::text FROM changes AS c WHERE kind = 'attachment' AND key = '{id}'"))!)!.AsArray().Select(c => c!)];
    }

    // What differs between any two attachments, and the keys of batch lines.
    private static JsonNode Comparable(JsonNode change)
    {
        var copy = change.DeepClone();
        foreach (var name in new[] { "id", "at", "key", "trace_id" })
            copy.AsObject().Remove(name);
        foreach (var side in new[] { "before", "after" })
        {
            foreach (var name in new[] { "id", "tagId", "recordedAt", "startedByLine", "endedByLine" })
                (copy[side] as JsonObject)?.Remove(name);
        }

        return copy;
    }
}
