using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using CsCheck;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;

namespace TagService.Service.Tests.Contract;

/// <summary>
/// Every operation that takes a JSON record, found in the document, gets bodies made from its own example: it answers 2xx or
/// problem details of 4xx, never 5xx. An operation added later is covered at once.
/// </summary>
[Collection(TestDatabase.Collection)]
public sealed class HostileBodiesTests(RealHost host) : IClassFixture<RealHost>
{
    [Fact]
    public async Task Post_HostileBodies_IsRefusedOrAnsweredNeverFailed()
    {
        var operations = await Operations();
        Assert.NotEmpty(operations);
        foreach (var (path, example) in operations)
        {
            foreach (var (name, body) in Hostile(example))
                await Send(path, name, body);
        }
    }

    [Fact]
    public async Task Post_MutatedExamples_IsRefusedOrAnsweredNeverFailed()
    {
        foreach (var (path, example) in await Operations())
        {
            await JsonMutations.Of([Encoding.UTF8.GetBytes(example.ToJsonString())])
                .SampleAsync(body => Send(path, "mutated", body), iter: 500, threads: 2);
        }
    }

    private static IEnumerable<(string Name, byte[] Body)> Hostile(JsonObject example)
    {
        var json = example.ToJsonString();
        var first = example.First();
        yield return ("empty", []);
        yield return ("one word", "pump"u8.ToArray());
        yield return ("no object", "[1,2]"u8.ToArray());
        yield return ("null", "null"u8.ToArray());
        yield return ("nothing known", "{}"u8.ToArray());
        yield return ("doubled", Encoding.UTF8.GetBytes($"{{{Member(first)},{json[1..]}"));
        yield return ("byte order mark", [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(json)]);
        yield return ("utf-16", [0xFF, 0xFE, .. Encoding.Unicode.GetBytes(json)]);
        yield return ("cut off", Encoding.UTF8.GetBytes(json[..^3]));
        yield return ("10,000 deep", Encoding.UTF8.GetBytes($"{{\"a\":{new string('[', 10_000)}{new string(']', 10_000)}}}"));
        yield return ("long name", Encoding.UTF8.GetBytes($"{{\"{new string('n', 500_000)}\":1}}"));
        yield return ("10 MB", Encoding.UTF8.GetBytes($"{{\"a\":\"{new string('x', 10_000_000)}\"}}"));
        yield return ("other languages", "{\"名称\":\"泵\",\"имя\":\"насос\",\"اسم\":\"مضخة\"}"u8.ToArray());
        foreach (var place in Places(example))
        {
            foreach (var value in new[]
            {
                "null", "NaN", "1e999", "-1e308", "1e-320", "\"3\"", "true", "[]", "{}", "[null]", "{\"\":null}", "\"\\ud800\"", "\"\\u0000\"",
                $"\"{new string('é', 200_000)}\"", $"[{string.Join(',', Enumerable.Repeat("0", 200_000))}]",
            })
            {
                yield return ($"{place.Path} = {value[..Math.Min(20, value.Length)]}", Encoding.UTF8.GetBytes(place.With(value)));
            }
        }
    }

    private static string Member(KeyValuePair<string, JsonNode?> member) => $"\"{member.Key}\":{member.Value?.ToJsonString() ?? "null"}";

    /// <summary>Each member of the example with a way to put any text in its place.</summary>
    private static IEnumerable<(string Path, Func<string, string> With)> Places(JsonObject example)
    {
        const string Mark = "\"@here@\"";
        foreach (var path in Members(example, []))
        {
            var copy = (JsonObject)example.DeepClone();
            JsonNode at = copy;
            foreach (var step in path[..^1])
                at = at[step]!;
            at[path[^1]] = "@here@";
            yield return (string.Join('/', path), value => copy.ToJsonString().Replace(Mark, value, StringComparison.Ordinal));
        }
    }

    private static IEnumerable<string[]> Members(JsonObject node, string[] above) =>
        node.SelectMany(m => m.Value is JsonObject nested ? Members(nested, [.. above, m.Key]).Prepend([.. above, m.Key]) : [[.. above, m.Key]]);

    private async Task<IReadOnlyList<(string Path, JsonObject Example)>> Operations()
    {
        var document = JsonNode.Parse(await host.Client.GetStringAsync("/openapi/v1.json"))!;
        return
        [
            .. from path in document["paths"]!.AsObject()
               let example = path.Value!["post"]?["requestBody"]?["content"]?["application/json"]?["example"] as JsonObject
               where example is not null
               select (path.Key, example),
        ];
    }

    private async Task Send(string path, string name, byte[] body)
    {
        using var content = new ByteArrayContent(body);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        using var response = await host.Client.PostAsync(path, content);
        var text = await response.Content.ReadAsStringAsync();
        var fine = response.IsSuccessStatusCode
            || ((int)response.StatusCode is >= 400 and < 500
                && response.Content.Headers.ContentType?.MediaType == "application/problem+json"
                && text.Length < 60_000);
        Assert.True(fine, $"{path}, {name}: {(int)response.StatusCode} {text[..Math.Min(text.Length, 500)]}");
    }
}
