using System.Text;
using CsCheck;
using TagService.Domain.Registers;
using TagService.Intake.Registers.Http;

namespace TagService.Service.Tests.Registers;

/// <summary>JSON objects as rows, and what a mapping makes of them. Rows are invented.</summary>
public sealed class JsonRowTests
{
    // RFC 6901, section 5: the example document's members, and the pointers that reach them.
    [Theory]
    [InlineData("/foo/0", "bar")]
    [InlineData("/foo/1", "baz")]
    [InlineData("/", "0")]
    [InlineData("/a~1b", "1")]
    [InlineData("/c%d", "2")]
    [InlineData("/g|h", "4")]
    [InlineData("/i\\j", "5")]
    [InlineData("/k\"l", "6")]
    [InlineData("/ ", "7")]
    [InlineData("/m~0n", "8")]
    public void Find_PointerOfRfc6901_ReachesItsValue(string pointer, string expected)
    {
        var row = Row("""{"foo":["bar","baz"],"":0,"a/b":1,"c%d":2,"e^f":3,"g|h":4,"i\\j":5,"k\"l":6," ":7,"m~n":8}""");

        Assert.Equal(expected, row.Find(pointer)!.Value.Text);
    }

    [Theory]
    [InlineData("/foo/2")]
    [InlineData("/foo/00")]
    [InlineData("/foo/-")]
    [InlineData("/bar")]
    public void Find_PointerToNothing_IsNone(string pointer) => Assert.Null(Row("""{"foo":["bar","baz"]}""").Find(pointer));

    [Fact]
    public void Map_NestedMembers_FeedFieldsAndAttributes()
    {
        var mapped = Assert.IsType<MappedAsset>(Map(
            """{"id":7,"place":{"name":"Works north","owner":{"name":"somebody"}},"use":["acid","salt fog"],"wall":{"mm":2.50},"made":[{"by":"a"},{"by":"b"}],"note":null}""",
            [
                new() { Target = "/location", Source = "/place/name" }, new() { Target = "/environment/chemicals", Source = "/use" },
                new() { Target = "/surface/thicknessMm", Source = "/wall/mm" }, new() { Target = "/contents", Source = "/use/1" },
            ],
            notKept: ["/place/owner"]));

        var record = mapped.ApplyTo(null);
        Assert.Equal(("7", "Works north", 2.5), (mapped.AssetId, mapped.LocationName, record.Surface!.ThicknessMm));
        Assert.Equal(["acid", "salt fog"], record.Environment!.Chemicals);
        Assert.Equal("salt fog", record.Contents);
        Assert.Equal([("made.0.by", "a"), ("made.1.by", "b")], record.Attributes.Select(a => (a.Key, a.Value)).Order());
        // Null takes an attribute away that was there before.
        Assert.DoesNotContain("note", mapped.ApplyTo(new() { Attributes = new Dictionary<string, string> { ["note"] = "x" } }).Attributes.Keys);
    }

    [Fact]
    public void Map_PointerToAStructure_IsNotUnderstood() =>
        Assert.IsType<RowRefusal>(Map("""{"id":1,"wall":{"mm":2}}""", [new() { Target = "/surface/thicknessMm", Source = "/wall" }]));

    [Fact]
    public void Map_CharactersThatAreNoText_NeverReachTheRecord()
    {
        Assert.IsType<RowRefusal>(Map("{\"id\":1,\"c\":\"a\\u0000b\"}", [new() { Target = "/category", Source = "/c" }]));
        var mapped = Assert.IsType<MappedAsset>(Map("{\"id\":1,\"c\\u0000\":\"a\\u0000b\"}", []));

        Assert.DoesNotContain(mapped.Attributes, a => a.Key.Contains('\0') || a.Value!.Contains('\0'));
    }

    // Rows of changing shapes through one flattener: the short cut for equal shapes changes nothing.
    [Fact]
    public void Flatten_RowsOfChangingShapes_GiveWhatAFreshFlattenerGives()
    {
        var shared = new JsonRowFlattener();
        string[] members = ["\"a\":1", "\"a\":{\"b\":[1,2]}", "\"b\":{\"a\":{\"c\":null}}", "\"c\":[{\"a\":1},2]", "\"a~/\":\"x\"", "\"d\":true"];
        Gen.Int[0, members.Length - 1].Select(i => members[i]).Array[0, 5].Array[1, 4].Sample(
            rows =>
            {
                foreach (var json in rows.Select(r => Encoding.UTF8.GetBytes("{" + string.Join(",", r) + "}")))
                {
                    var (a, b) = (shared.Flatten(json, out var reasonA), new JsonRowFlattener().Flatten(json, out var reasonB));
                    Assert.Equal(reasonB, reasonA);
                    Assert.Equal(b?.Columns.Names, a?.Columns.Names);
                    Assert.Equal(b?.Values.Select(v => (v.Kind, v.Text)), a?.Values.Select(v => (v.Kind, v.Text)));
                }
            },
            threads: 1);
    }

    private static RegisterRow Row(string json) => new JsonRowFlattener().Flatten(Encoding.UTF8.GetBytes(json), out _)!;

    private static RowMapping Map(string json, IReadOnlyList<MappingRow> rows, IReadOnlyList<string>? notKept = null) =>
        Assert.IsType<MappingCompilation.Usable>(new RegisterMapping { Rows = [new() { Target = "/assetId", Source = "id" }, .. rows], NotKept = notKept ?? [] }.Compile())
            .Mapper.Map(Row(json), new(2026, 1, 1));
}
