using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using TagService.Domain.Recommendations;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Hosting;
using TagService.Service.Tests.Storage;
using TagService.Storage.Bulk;

namespace TagService.Service.Tests.Fitting;

/// <summary>The real host on a database of its own with some assets, and short forms of what these tests ask it. Assets are invented.</summary>
internal sealed class FittingHost : IAsyncDisposable
{
    private readonly RunningHost _host;

    private FittingHost(StorageServices storage, RunningHost host)
    {
        Storage = storage;
        _host = host;
    }

    public StorageServices Storage { get; }

    public HttpClient Client => _host.Client;

    public static async Task<FittingHost> StartAsync(TestDatabase server, string name, params (AssetRecord Record, string? Location)[] assets)
    {
        var storage = await StorageServices.CreateMigratedAsync(server, name);
        await using (var connection = await storage.DataSource.OpenConnectionAsync())
        await using (var transaction = await connection.BeginTransactionAsync())
        {
            await new AssetBulkWriter(storage.DataSource, TimeProvider.System).WriteAsync(transaction, [.. assets.Select(a => new AssetToLoad(a.Record, a.Location))], AssetSources.Push, default);
            await transaction.CommitAsync();
        }

        return new(storage, await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api"));
    }

    public static (AssetRecord Record, string? Location) Asset(string id, string category = "ladder", string? location = null) =>
        (StorageServices.Asset(id, category), location);

    /// <summary>A default rule: GIAI-96 under the company prefix of the standard's own examples (TDS 2.3, annex E).</summary>
    public async Task SetUpNumbersAsync(long nextNumber = 1000)
    {
        using var answer = await Client.PutAsJsonAsync(
            "/v1/numbering-rules/assets", new { scheme = "giai-96", companyPrefix = "9521141", nextNumber, isDefault = true });
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
    }

    public async Task<JsonNode> InstructionAsync(string assetId, string query = "") =>
        (await Client.GetFromJsonAsync<JsonNode>($"/v1/assets/{Uri.EscapeDataString(assetId)}/fitting-instruction?{query}"))!;

    public async Task<string?> IdentityAsync(string assetId, string query = "") => (string?)(await InstructionAsync(assetId, query))["identity"]?["canonical"];

    public async Task<JsonNode> WorklistAsync(string query = "") => (await Client.GetFromJsonAsync<JsonNode>($"/v1/fitting-worklist?{query}"))!;

    public async Task<(string Text, IHtmlDocument Document)> PageAsync(string path)
    {
        using var answer = await Client.GetAsync(path);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        Assert.Equal("text/html", answer.Content.Headers.ContentType?.MediaType);
        var text = await answer.Content.ReadAsStringAsync();
        return (text, new HtmlParser().ParseDocument(text));
    }

    /// <summary>Records the result of an instruction as the instruction says.</summary>
    public async Task<JsonNode> RecordAsync(JsonNode instruction, params (string Name, JsonNode Value)[] more)
    {
        var recording = instruction["recording"]!;
        Assert.Equal("POST", (string?)recording["method"]);
        var body = recording["body"]!.DeepClone().AsObject();
        foreach (var (name, value) in more)
            body[name] = value;
        using var answer = await Client.PostAsJsonAsync((string)recording["address"]!, body);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        return (await answer.Content.ReadFromJsonAsync<JsonNode>())!;
    }

    public async ValueTask DisposeAsync()
    {
        await _host.DisposeAsync();
        await Storage.DisposeAsync();
    }
}
