using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Storage;

namespace TagService.Service.Tests.Hosting;

[Collection(TestDatabase.Collection)]
public sealed class ServiceHostTests(TestDatabase server)
{
    private const string Marker = "secret-marker-4711";

    [Fact]
    public async Task Host_StartAndStop_AnswersInBetween()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "host_start");
        await using var host = await RunningHost.StartAsync(storage.ConnectionString);
        Assert.Equal(HttpStatusCode.OK, (await host.Client.GetAsync("/health/live")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await host.Client.GetAsync("/health/ready")).StatusCode);
        await host.StopAsync();
        await Assert.ThrowsAsync<HttpRequestException>(() => host.Client.GetAsync("/health/live"));
    }

    [Fact]
    public async Task Host_OnDatabaseWithoutTables_IsAliveButNotReady()
    {
        await using var storage = await StorageServices.CreateEmptyAsync(server, "host_not_ready");
        await using var host = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        Assert.Equal(HttpStatusCode.OK, (await host.Client.GetAsync("/health/live")).StatusCode);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, (await host.Client.GetAsync("/health/ready")).StatusCode);
    }

    [Fact]
    public async Task Host_WorkerAlone_AnswersProbesOnly()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "host_worker");
        await using var host = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=worker");
        Assert.Equal(HttpStatusCode.OK, (await host.Client.GetAsync("/health/ready")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await host.Client.GetAsync("/v1/assets")).StatusCode);
    }

    [Fact]
    public async Task Log_RequestsThatCarryASecret_HoldsRouteStatusAndTraceButNotTheSecret()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "host_log");
        await using var host = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        const string trace = "0af7651916cd43dd8448eb211c80319c"; // the example of W3C Trace Context, section 3.2
        (HttpMethod Method, string Path)[] requests =
        [
            (HttpMethod.Post, $"/v1/recommendations?x={Marker}"), (HttpMethod.Get, $"/health/live?{Marker}=1"),
            (HttpMethod.Get, $"/v1/assets/{Marker}"), (HttpMethod.Get, $"/v1/assets?limit={Marker}"), (HttpMethod.Get, $"/{Marker}"), (new HttpMethod(Marker), "/health/live"),
        ];
        foreach (var (method, path) in requests)
        {
            using var request = new HttpRequestMessage(method, path);
            request.Headers.Add("X-Api-Key", Marker);
            request.Headers.Add("traceparent", $"00-{trace}-b7ad6b7169203331-01");
            request.Headers.UserAgent.ParseAdd(Marker);
            if (method != HttpMethod.Get)
                request.Content = new StringContent($"{{\"category\":\"{Marker}\",\"contents\":{Marker}}}", Encoding.UTF8, "application/json");
            using var answer = await host.Client.SendAsync(request);
        }

        await host.StopAsync();
        Assert.DoesNotContain(host.LogLines, line => line.Contains(Marker, StringComparison.OrdinalIgnoreCase));
        var lines = host.LogLines.Select(l => JsonNode.Parse(l)!).Where(l => l["Route"] is not null).ToList();
        Assert.Equal(requests.Length, lines.Count);
        Assert.All(lines, l => Assert.Equal(trace, (string?)l["Trace"]));
        Assert.All(lines, l => Assert.Equal(JsonValueKind.Number, l["ElapsedMs"]!.GetValueKind()));
        Assert.Contains(lines, l => ((string)l["Route"]!).StartsWith("/v1/assets/{", StringComparison.Ordinal) && (int)l["StatusCode"]! == 404);
        Assert.Contains(lines, l => (string?)l["Route"] == "(no route)" && (string?)l["Method"] == "GET");
        Assert.Contains(lines, l => (string?)l["Method"] == "(other)");
    }
}
