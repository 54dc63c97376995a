using System.Text.Json;
using System.Text.Json.Nodes;
using TagService.Api.Http.Json;

namespace TagService.Service.Tests.Http;

/// <summary>The test cases of RFC 7396 (Hoffman, Snell 2014), appendix A, all fifteen rows of its table: original, patch, result (from memory).</summary>
public sealed class JsonMergePatchTests
{
    [Theory]
    [InlineData("""{"a":"b"}""", """{"a":"c"}""", """{"a":"c"}""")]
    [InlineData("""{"a":"b"}""", """{"b":"c"}""", """{"a":"b","b":"c"}""")]
    [InlineData("""{"a":"b"}""", """{"a":null}""", "{}")]
    [InlineData("""{"a":"b","b":"c"}""", """{"a":null}""", """{"b":"c"}""")]
    [InlineData("""{"a":["b"]}""", """{"a":"c"}""", """{"a":"c"}""")]
    [InlineData("""{"a":"c"}""", """{"a":["b"]}""", """{"a":["b"]}""")]
    [InlineData("""{"a":{"b":"c"}}""", """{"a":{"b":"d","c":null}}""", """{"a":{"b":"d"}}""")]
    [InlineData("""{"a":[{"b":"c"}]}""", """{"a":[1]}""", """{"a":[1]}""")]
    [InlineData("""["a","b"]""", """["c","d"]""", """["c","d"]""")]
    [InlineData("""{"a":"b"}""", """["c"]""", """["c"]""")]
    [InlineData("""{"a":"foo"}""", "null", "null")]
    [InlineData("""{"a":"foo"}""", "\"bar\"", "\"bar\"")]
    [InlineData("""{"e":null}""", """{"a":1}""", """{"e":null,"a":1}""")]
    [InlineData("[1,2]", """{"a":"b","c":null}""", """{"a":"b"}""")]
    [InlineData("{}", """{"a":{"bb":{"ccc":null}}}""", """{"a":{"bb":{}}}""")]
    public void Apply_CaseOfAppendixA_GivesItsResult(string original, string patch, string result) =>
        Assert.True(
            JsonNode.DeepEquals(JsonNode.Parse(result), JsonMergePatch.Apply(JsonNode.Parse(original), JsonDocument.Parse(patch).RootElement)),
            $"{original} with {patch}");

    /// <summary>RFC 7396, section 3: the example document (from memory), one patch changing, adding, removing and replacing a list.</summary>
    [Fact]
    public void Apply_ExampleOfSection3_GivesItsResult()
    {
        var original = JsonNode.Parse(
            """{"title":"Goodbye!","author":{"givenName":"John","familyName":"Doe"},"tags":["example","sample"],"content":"This will be unchanged"}""");
        using var patch = JsonDocument.Parse("""{"title":"Hello!","phoneNumber":"+01-123-456-7890","author":{"familyName":null},"tags":["example"]}""");
        Assert.True(JsonNode.DeepEquals(
            JsonNode.Parse("""{"title":"Hello!","author":{"givenName":"John"},"tags":["example"],"content":"This will be unchanged","phoneNumber":"+01-123-456-7890"}"""),
            JsonMergePatch.Apply(original, patch.RootElement)));
    }
}
