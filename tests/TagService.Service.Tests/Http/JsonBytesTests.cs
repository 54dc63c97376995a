using System.Buffers;
using System.Text;
using System.Text.Json;
using CsCheck;
using TagService.Api.Http.Json;

namespace TagService.Service.Tests.Http;

/// <summary>Written text is what System.Text.Json writes under the rules of the interface; it is the reference.</summary>
public sealed class JsonBytesTests
{
    /// <summary>Characters of all kinds, half surrogate pairs too, and the few that JSON must escape (RFC 8259, section 7) often.</summary>
    private static readonly Gen<string> AnyText = Gen.OneOf(
        Gen.Char, Gen.Char[' ', '~'], Gen.Int[0, 6].Select(i => "\"\\\n\u0000\u007F\u2028é"[i]), Gen.Char['\uD800', '\uDFFF']).Array[0, 60].Select(c => new string(c));

    [Fact]
    public void Text_AnyCharacters_AreWrittenAsTheSerializerDoes() => AnyText.Sample(
        text =>
        {
            using var json = new JsonBytes();
            json.Open();
            json.Text("a"u8, text);
            json.Close();
            return json.Written.Span.SequenceEqual(Serialized(new { a = text }));
        },
        iter: 100_000);

    [Fact]
    public void Texts_AnyCharacters_AreWrittenAsTheSerializerDoes() => AnyText.Array[0, 5].Sample(
        texts =>
        {
            using var json = new JsonBytes();
            json.Open();
            json.Texts("a"u8, texts);
            json.Close();
            return json.Written.Span.SequenceEqual(Serialized(new { a = texts }));
        },
        iter: 10_000);

    [Fact]
    public void Members_OfEveryKind_AreWrittenAsTheSerializerDoes() => Gen.Select(Gen.Decimal, Gen.Long, Gen.Double[-100, 100], Gen.Bool).Sample(
        (money, whole, measure, flag) =>
        {
            using var json = new JsonBytes();
            json.Open();
            json.Number("money"u8, money);
            json.Number("whole"u8, whole);
            json.Open("inner"u8);
            json.Number("measure"u8, measure);
            json.TextIfAny("none"u8, null);
            json.Close();
            json.Objects("items"u8, [1L, 2L], static (json, i) => json.Number("i"u8, i));
            json.Objects<long>("empty"u8, [], static (json, i) => json.Number("i"u8, i));
            json.Flag("flag"u8, flag);
            json.Null("nothing"u8);
            json.Close();
            var expected = Serialized(new
            {
                money, whole, inner = new { measure }, items = new[] { new { i = 1 }, new { i = 2 } }, empty = Array.Empty<int>(), flag,
                nothing = (JsonElement?)JsonElement.Parse("null"),
            });
            return json.Written.Span.SequenceEqual(expected);
        },
        iter: 20_000);

    [Fact]
    public void Text_LongerThanTheRentedMemory_IsKeptWhole()
    {
        var text = new string('é', 300_000);
        using var json = new JsonBytes();
        json.Open();
        json.Text("before"u8, "b");
        var start = json.Length;
        json.Text("long"u8, text);
        json.Again(start, json.Length);
        json.Close();
        var once = $",\"long\":\"{text}\"";
        Assert.Equal($"{{\"before\":\"b\"{once}{once}}}", Encoding.UTF8.GetString(json.Written.Span));
    }

    [Fact]
    public void Buffer_FilledFromOutside_ContinuesTheText()
    {
        using var json = new JsonBytes();
        json.Open();
        json.Number("line"u8, 1);
        json.Close();
        json.Write("\n"u8);
        using (var writer = new Utf8JsonWriter(json))
            JsonSerializer.Serialize(writer, new { line = 2 });
        Assert.Equal("{\"line\":1}\n{\"line\":2}", Encoding.UTF8.GetString(json.Written.Span));
    }

    private static byte[] Serialized<T>(T value) => JsonSerializer.SerializeToUtf8Bytes(value, WireJson.Options);
}
