using Microsoft.Extensions.DependencyInjection;
using TagService.Api.Features.RegisterSources;
using TagService.LocalDatabase;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;

namespace TagService.Service.Tests.Registers;

/// <summary>Register sources of the operator's configuration.</summary>
[Collection(TestDatabase.Collection)]
public sealed class ConfiguredRegisterSourcesTests(RegisterApiHost host) : IClassFixture<RegisterApiHost>
{
    [Fact]
    public async Task Start_SourcesConfigured_AreStoredReadOnlyAndReleasedWhenTheyVanish()
    {
        var file = Path.Combine(host.Folder, "works.source.json");
        await File.WriteAllTextAsync(file, RegisterSourcesEndpointsTests.Http);
        await using (var app = RegisterApiHost.Build(host.ConnectionString, host.Folder, $"--Registers:Sources:configured={file}"))
        {
            await app.StartAsync();
            await app.StopAsync();
        }

        using var read = await host.Client.GetItemAsync("/v1/register-sources/configured");
        var shown = await read.JsonAsync();
        Assert.True((bool)shown["isFromConfiguration"]!);
        using var put = await host.Client.PutItemAsync("/v1/register-sources/configured", RegisterSourcesEndpointsTests.Http);
        await HostileRequestTests.Problem(put, System.Net.HttpStatusCode.Conflict, "conflict");
        using var delete = await host.Client.DeleteItemAsync("/v1/register-sources/configured");
        await HostileRequestTests.Problem(delete, System.Net.HttpStatusCode.Conflict, "conflict");
        Assert.Equal("configuration", (string?)(await host.Client.ListAsync("/v1/changes?kind=register-source&key=configured"))[0]["actor"]);

        await using (var app = RegisterApiHost.Build(host.ConnectionString, host.Folder))
            Assert.Empty(await app.Services.GetRequiredService<ConfiguredRegisterSources>().StoreAsync(default));

        using var later = await host.Client.GetItemAsync("/v1/register-sources/configured");
        var released = await later.JsonAsync();
        Assert.Equal((false, false), ((bool)released["isFromConfiguration"]!, (bool)released["enabled"]!));
        using var deleted = await host.Client.DeleteItemAsync("/v1/register-sources/configured");
        Assert.True(deleted.IsSuccessStatusCode);
    }

    [Fact]
    public async Task Start_BadFile_StopsTheStartNamingFilePointerValueAndAccepted()
    {
        var (file, good) = (Path.Combine(host.Folder, "bad.source.json"), Path.Combine(host.Folder, "good.source.json"));
        await File.WriteAllTextAsync(file, RegisterSourcesEndpointsTests.Http.Replace("\"target\":\"/assetId\"", "\"target\":\"/asetId\"", StringComparison.Ordinal));
        await File.WriteAllTextAsync(good, RegisterSourcesEndpointsTests.Http);
        await using var app = RegisterApiHost.Build(
            host.ConnectionString, host.Folder, $"--Registers:Sources:bad={file}", $"--Registers:Sources:fine={good}", "--Registers:Sources:gone=/does/not/exist.json", "--Registers:Sources:push=x");

        var failure = await Assert.ThrowsAsync<StartupProblemException>(() => app.StartAsync());

        Assert.Contains($"Registers:Sources:bad: {file}: #/mapping/rows/0/target: /asetId: ", failure.Message, StringComparison.Ordinal);
        Assert.Contains("Accepted: did you mean /assetId?", failure.Message, StringComparison.Ordinal);
        Assert.Contains("Registers:Sources:gone", failure.Message, StringComparison.Ordinal);
        Assert.Contains("Registers:Sources:push", failure.Message, StringComparison.Ordinal);
        using var none = await host.Client.GetItemAsync("/v1/register-sources/fine");
        Assert.Equal(System.Net.HttpStatusCode.NotFound, none.StatusCode);
    }
}
