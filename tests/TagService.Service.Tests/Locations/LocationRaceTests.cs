using System.Net;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Hosting;
using TagService.Service.Tests.Http;
using TagService.Service.Tests.Storage;

namespace TagService.Service.Tests.Locations;

/// <summary>Two services on one database, and many writers at once.</summary>
[Collection(TestDatabase.Collection)]
public sealed class LocationRaceTests(TestDatabase server)
{
    private const string Root = "/v1/locations";

    // Either move is fine alone; together they are a cycle.
    [Fact]
    public async Task Put_TwoMovesThatTogetherAreACycle_OneIsRefused()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "locations_cycle");
        await using var one = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        await using var two = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        for (var round = 0; round < 20; round++)
        {
            await one.Client.GivenAsync(($"{Root}/a", """{"name":"A"}"""), ($"{Root}/b", """{"name":"B"}"""));
            var answers = await Task.WhenAll(
                one.Client.PutItemAsync($"{Root}/a", """{"name":"A","parentId":"b"}"""), two.Client.PutItemAsync($"{Root}/b", """{"name":"B","parentId":"a"}"""));
            Assert.Single(answers, a => a.StatusCode == HttpStatusCode.OK);
            Assert.Single(answers, a => a.StatusCode == HttpStatusCode.Conflict);
        }
    }

    [Fact]
    public async Task Put_RandomMovesByManyOverTwoServices_LeaveATree()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "locations_moves");
        await using var one = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        await using var two = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        const int places = 6;
        await one.Client.GivenAsync([.. Enumerable.Range(0, places).Select(i => ($"{Root}/{i}", """{"name":"Place"}"""))]);

        var statuses = await Task.WhenAll(Enumerable.Range(0, 8).Select(writer => Task.Run(async () =>
        {
            var random = new Random(writer);
            var seen = new List<HttpStatusCode>();
            for (var i = 0; i < 25; i++)
            {
                using var put = await (writer % 2 == 0 ? one : two).Client.PutItemAsync(
                    $"{Root}/{random.Next(places)}", $$"""{"name":"Place","parentId":"{{random.Next(places)}}"}""");
                seen.Add(put.StatusCode);
            }

            return seen;
        })));

        var all = statuses.SelectMany(s => s).ToList();
        Assert.All(all, s => Assert.Contains(s, new[] { HttpStatusCode.OK, HttpStatusCode.Conflict }));
        Assert.Contains(HttpStatusCode.Conflict, all);
        Assert.Contains(HttpStatusCode.OK, all);
        var parents = (await one.Client.ListAsync(Root)).ToDictionary(l => (string)l["id"]!, l => (string?)l["parentId"]);
        Assert.All(parents.Keys, id => Assert.True(StepsToTheTop(parents, id) <= places));
    }

    [Fact]
    public async Task Put_ManyWithTheSameTag_OneWinsAndTheOthersAreToldSo()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "locations_tag");
        await using var one = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        await using var two = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        using var created = await one.Client.PutItemAsync($"{Root}/race", """{"name":"Before"}""");
        var tag = created.Headers.ETag!.ToString();
        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(i => (i % 2 == 0 ? one : two).Client.PutItemAsync($"{Root}/race", $$"""{"name":"Writer {{i}}"}""", ifMatch: tag)));
        Assert.Equal(7, answers.Count(a => a.StatusCode == HttpStatusCode.PreconditionFailed));
        var won = await Assert.Single(answers, a => a.StatusCode == HttpStatusCode.OK).JsonAsync();
        using var read = await two.Client.GetItemAsync($"{Root}/race");
        Assert.True(JsonNode.DeepEquals(won, await read.JsonAsync()));

        var creations = await Task.WhenAll(Enumerable.Range(0, 8).Select(i => (i % 2 == 0 ? one : two).Client.PutItemAsync($"{Root}/new", $$"""{"name":"Writer {{i}}"}""", ifNoneMatch: "*")));
        Assert.Single(creations, a => a.StatusCode == HttpStatusCode.Created);
        Assert.Equal(7, creations.Count(a => a.StatusCode == HttpStatusCode.PreconditionFailed));
        Assert.Equal(3L, await storage.CountAsync("changes WHERE kind = 'location'"));
    }

    // Last line of defence: a writer that knows nothing of the rules.
    [Theory]
    [InlineData("INSERT INTO location_names VALUES ('pump hall', 'b', true)", "23505")]
    [InlineData("UPDATE locations SET parent_id = id WHERE id = 'a'", "23514")]
    [InlineData("UPDATE locations SET parent_id = 'nowhere' WHERE id = 'a'", "23503")]
    [InlineData("DELETE FROM locations WHERE id = 'a'", "23503")]
    public async Task Database_WriterThatBreaksARule_IsRefused(string sql, string sqlState)
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "locations_rules");
        await using var service = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        await service.Client.GivenAsync(($"{Root}/a", """{"name":"A","aliases":["Pump Hall"]}"""), ($"{Root}/b", """{"name":"B","parentId":"a"}"""));
        var refused = await Assert.ThrowsAsync<Npgsql.PostgresException>(() => storage.ScalarAsync(sql));
        Assert.Equal(sqlState, refused.SqlState);
    }

    private static int StepsToTheTop(Dictionary<string, string?> parents, string id)
    {
        var steps = 0;
        for (string? at = id; at is not null && steps <= parents.Count; at = parents[at])
            steps++;
        return steps;
    }
}
