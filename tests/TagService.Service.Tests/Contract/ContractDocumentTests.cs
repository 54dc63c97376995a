using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using TagService.Service.Tests.Database;

namespace TagService.Service.Tests.Contract;

/// <summary>
/// What must hold of every operation of the OpenAPI document, whoever adds it. The rules are the project's own contract
/// (problem details of RFC 9457 for errors, units and ranges on numbers), checked on the document a client gets.
/// </summary>
[Collection(TestDatabase.Collection)]
public sealed partial class ContractDocumentTests(RealHost host) : IClassFixture<RealHost>
{
    // Ending of a member's name and what its description must then contain.
    private static readonly (string Ending, string Unit)[] Units =
    [
        ("MnPerM", "mN/m"), ("APerM", "A/m"), ("PerHour", "per hour"), ("PerYear", "a year"), ("Mm2", "mm^2"), ("Mm", "mm"), ("Dbm", "dBm"), ("Dbi", "dBi"), ("Db", "dB"), ("Mhz", "MHz"),
        ("Watts", "watts"), ("Years", "ears"), ("Hours", "ours"), ("Minutes", "inutes"), ("Cycles", "cycles"), ("Bits", "bits"),
        ("J", "J"), ("C", "°C"), ("M", " m"),
    ];

    [Fact]
    public async Task Document_ServedAndCommitted_AreTheSame()
    {
        var served = await Document();
        var committed = JsonNode.Parse(await File.ReadAllTextAsync(Path.Combine(Repository.Root, "api", "openapi.json")))!;

        Assert.True(JsonNode.DeepEquals(committed, served), "api/openapi.json is not what the service serves: build src/TagService and commit it.");
    }

    [Fact]
    public async Task Document_EveryOperation_IsComplete()
    {
        var missing = new List<string>();
        foreach (var (name, operation) in Operations(await Document()))
        {
            foreach (var member in new[] { "operationId", "summary", "description" })
            {
                if (string.IsNullOrWhiteSpace((string?)operation[member]))
                    missing.Add($"{name}: {member}");
            }

            if (operation["tags"] is not JsonArray { Count: > 0 })
                missing.Add($"{name}: tags");
            foreach (var (media, content) in (operation["requestBody"]?["content"]?.AsObject() ?? []).Concat(operation["responses"]!["200"]?["content"]?.AsObject() ?? []))
            {
                if (content!["example"] is null)
                    missing.Add($"{name}: example of {media}");
            }

            foreach (var parameter in operation["parameters"]?.AsArray() ?? [])
            {
                if (string.IsNullOrWhiteSpace((string?)parameter!["description"]))
                    missing.Add($"{name}: description of parameter {parameter["name"]}");
            }
        }

        None(missing);
    }

    [Fact]
    public async Task Document_EveryOperation_NamesItsErrorAnswers()
    {
        var missing = new List<string>();
        foreach (var (name, operation) in Operations(await Document()))
        {
            string[] expected = [
                "500",
                .. name.Contains('{', StringComparison.Ordinal) ? ["404"] : Array.Empty<string>(),
                .. operation["requestBody"] is null ? [] : new[] { "400", "415" },
                // A stream of lines has no limit as a whole; a line too long is answered by a line.
                .. operation["requestBody"]?["content"]?["application/json"] is null ? [] : new[] { "413" },
            ];
            var responses = operation["responses"]!.AsObject();
            missing.AddRange(expected.Where(status => !responses.ContainsKey(status)).Select(status => $"{name}: {status}"));
            missing.AddRange(responses
                .Where(r => r.Key[0] is '4' or '5' && (string?)r.Value!["content"]?["application/problem+json"]?["schema"]?["$ref"] != "#/components/schemas/ProblemResponse")
                .Select(r => $"{name}: {r.Key} is no problem details"));
        }

        None(missing);
    }

    [Fact]
    public async Task Document_OperationIds_AreUnique()
    {
        var ids = Operations(await Document()).Select(o => (string?)o.Operation["operationId"]).ToArray();

        Assert.Equal(ids.Distinct().Count(), ids.Length);
    }

    [Fact]
    public async Task Document_EveryNumberOfARequest_HasARange()
    {
        var document = await Document();
        var reached = new HashSet<string>();
        foreach (var (_, operation) in Operations(document))
            Reach(operation["requestBody"], document, reached);

        var open = from name in reached
                   from property in Schema(document, name)["properties"]?.AsObject() ?? []
                   where IsNumber(property.Value!) && (property.Value!["minimum"] is null || property.Value["maximum"] is null)
                   select $"{name}.{property.Key}";

        Assert.NotEmpty(reached);
        None(open);
        None(from operation in Operations(document)
             from parameter in operation.Operation["parameters"]?.AsArray() ?? []
             let schema = parameter!["schema"]!
             where IsNumber(schema) && (schema["minimum"] is null || schema["maximum"] is null)
             select $"{operation.Name}: {parameter["name"]}");
    }

    [Fact]
    public async Task Document_EveryNumber_SaysItsUnit()
    {
        var document = await Document();
        var silent = from schema in document["components"]!["schemas"]!.AsObject()
                     from property in schema.Value!["properties"]?.AsObject() ?? []
                     where IsNumber(property.Value!)
                     let text = (string?)property.Value!["description"] ?? ""
                     let unit = Units.FirstOrDefault(u => property.Key.EndsWith(u.Ending, StringComparison.Ordinal)).Unit
                     where text.Length == 0 || (unit is not null && !text.Contains(unit, StringComparison.Ordinal))
                     select $"{schema.Key}.{property.Key} ({unit}): {text}";

        None(silent);
    }

    [Fact]
    public async Task Document_EveryMember_IsDescribed()
    {
        var silent = from schema in (await Document())["components"]!["schemas"]!.AsObject()
                     from property in schema.Value!["properties"]?.AsObject() ?? []
                     where property.Value!["description"] is null && property.Value["$ref"] is null
                     select $"{schema.Key}.{property.Key}";

        None(silent);
    }

    [Fact]
    public async Task Document_EveryEnumeration_ExplainsItsValues()
    {
        var silent = from schema in (await Document())["components"]!["schemas"]!.AsObject()
                     from value in schema.Value!["enum"]?.AsArray() ?? []
                     where !((string?)schema.Value["description"] ?? "").Contains($"`{value}`: ", StringComparison.Ordinal)
                     select $"{schema.Key}.{value}";

        None(silent);
    }

    [Fact]
    public async Task Document_SchemaNames_StandForOneTypeEach()
    {
        var names = (await Document())["components"]!["schemas"]!.AsObject().Select(s => s.Key).ToHashSet();

        // The generator numbers the second type of a name.
        Assert.DoesNotContain(names, n => Numbered().Match(n) is { Success: true } m && names.Contains(m.Groups[1].Value));
    }

    [Fact]
    public async Task Document_EveryMappedRoute_IsInIt()
    {
        var documented = Operations(await Document()).Select(o => o.Name).ToHashSet();

        var silent = host.Routes.Select(r => r.TrimEnd('/')).Where(r => !documented.Contains(r));

        Assert.NotEmpty(documented);
        None(silent);
    }

    [Fact]
    public async Task Swagger_Page_NeedsNoOtherServer()
    {
        var page = await host.Client.GetStringAsync("/swagger/index.html");
        var script = await host.Client.GetStringAsync("/swagger/swagger-ui-bundle.js");

        Assert.DoesNotMatch("(src|href)=\"(https?:)?//", page);
        Assert.True(script.Length > 100_000);
    }

    // Names all of them, not the first few.
    private static void None(IEnumerable<string> failures) => Assert.True(!failures.Any(), string.Join('\n', failures));

    private static IEnumerable<(string Name, JsonNode Operation)> Operations(JsonNode document) =>
        from path in document["paths"]!.AsObject()
        from operation in path.Value!.AsObject()
        select ($"{operation.Key.ToUpperInvariant()} {path.Key}", operation.Value);

    private static void Reach(JsonNode? node, JsonNode document, HashSet<string> names)
    {
        if (node is JsonArray items)
        {
            foreach (var item in items)
                Reach(item, document, names);
        }
        else if (node is JsonObject members)
        {
            foreach (var (name, value) in members)
            {
                if (name != "$ref")
                    Reach(value, document, names);
                else if (names.Add(((string)value!).Split('/')[^1]))
                    Reach(Schema(document, ((string)value!).Split('/')[^1]), document, names);
            }
        }
    }

    private static JsonNode Schema(JsonNode document, string name) => document["components"]!["schemas"]![name]!;

    private static bool IsNumber(JsonNode schema) =>
        (schema["type"] is JsonArray types ? types.Select(t => (string?)t) : [(string?)(schema["type"] as JsonValue)]).Any(t => t is "number" or "integer");

    private async Task<JsonNode> Document() =>
        JsonNode.Parse(await host.Client.GetStringAsync("/openapi/v1.json"))!;

    [GeneratedRegex("^(.+?)[0-9]+$")]
    private static partial Regex Numbered();
}
