using System.Net.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Service.Tests.Database;

namespace TagService.Service.Tests.Contract;

/// <summary>The examples of api/examples do what they say, sent in the order in which a file has them: later ones build on earlier ones.</summary>
[Collection(TestDatabase.Collection)]
public sealed class ExamplesTests(RealHost host) : IClassFixture<RealHost>
{
    public static TheoryData<string> Files => [.. HttpExample.All.Select(e => e.File).Distinct()];

    [Theory]
    [MemberData(nameof(Files))]
    public async Task Examples_OfAFileSentInOrder_GiveTheExpectedAnswers(string file)
    {
        foreach (var example in HttpExample.All.Where(e => e.File == file))
            await SendAsync(example);
    }

    private async Task SendAsync(HttpExample example)
    {
        using var request = example.ToMessage();

        using var response = await host.Client.SendAsync(request);

        var text = await response.Content.ReadAsStringAsync();
        Assert.True(example.Status == (int)response.StatusCode, $"{example.Name}: {(int)response.StatusCode}: {text}");
        if (example.Status >= 400)
        {
            Assert.Equal("application/problem+json", response.Content.Headers.ContentType!.MediaType);
            var problem = await response.Content.ReadFromJsonAsync<ProblemResponse>();
            Assert.Equal($"https://tagservice.example/problems/{example.Problem}", problem!.Type);
        }
    }
}
