using System.Net.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Service.Tests.Database;

namespace TagService.Service.Tests.Contract;

/// <summary>The examples of api/examples do what they say.</summary>
[Collection(TestDatabase.Collection)]
public sealed class ExamplesTests(RealHost host) : IClassFixture<RealHost>
{
    public static TheoryData<string> Names => [.. HttpExample.All.Select(e => e.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public async Task Example_Sent_GivesTheExpectedAnswer(string name)
    {
        var example = HttpExample.All.Single(e => e.Name == name);
        using var request = example.ToMessage();

        using var response = await host.Client.SendAsync(request);

        var text = await response.Content.ReadAsStringAsync();
        Assert.True(example.Status == (int)response.StatusCode, $"{(int)response.StatusCode}: {text}");
        if (example.Status >= 400)
        {
            Assert.Equal("application/problem+json", response.Content.Headers.ContentType!.MediaType);
            var problem = await response.Content.ReadFromJsonAsync<ProblemResponse>();
            Assert.Equal($"https://tagservice.example/problems/{example.Problem}", problem!.Type);
        }
    }
}
