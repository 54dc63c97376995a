using System.Text.Json;
using System.Text.Json.Serialization;
using CsCheck;
using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;
using TagService.Domain.Surfaces;

namespace TagService.Domain.Tests.Recommendations;

/// <summary>The key against the engine itself: whatever the key leaves out, the engine must not read.</summary>
public sealed class EngineInputTests
{
    private static readonly JsonSerializerOptions Everything = new()
    {
        NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
    };

    // Names with every meaning, near misses, the printed-code field, and names that sort before and behind the others.
    private static readonly string[] Names =
    [
        "type", "Typ", "model", "manufacturer", "Hersteller", "location", "Ort", "room", "serialNo", "colour", "weightKg", "part", "needsPrint", "NEEDSPRINT", "costCentre",
        "0", "!a", "~z", "purchase", "Inventarnummer", "marque", "remark", "x1", "x2", "x3", "x4", "x5", "x6", "x7", "x8", "x9", "description2", "label",
    ];

    private static readonly string[] Texts =
    [
        .. AssetProfiles.Table.All.SelectMany(p => p.Words.Values.SelectMany(w => w)).Where((_, i) => i % 9 == 0), "yes", "no", "true", "", " ", "blue", "4711", "Halle 3", "steel",
    ];

    private static readonly Gen<string> Text = OneOf(Texts);

    private static readonly Gen<KeyValuePair<string, string>[]> Attributes =
        Gen.Select(OneOf(Names), Text, (n, t) => KeyValuePair.Create(n, t)).Array[0, 24];

    private static readonly Gen<AssetRecord> Record = Gen.Select(
        Text.Null(), Text.Null(), OneOf(Materials.Table.All.Select(m => m.Id).ToArray()).Null(), Gen.Bool, Attributes,
        (category, description, material, bare, attributes) => new AssetRecord
        {
            AssetId = "a", Category = category, Description = description,
            Surface = material is null ? null : new() { Material = material, Coating = bare ? "bare" : null }, Attributes = Map(attributes),
        });

    // A step from one record to another, mostly in what the key may leave out.
    private static readonly Gen<Func<AssetRecord, AssetRecord>> Step = Gen.OneOf<Func<AssetRecord, AssetRecord>>(
        Gen.Select(OneOf(Names), Text, (n, t) => (Func<AssetRecord, AssetRecord>)(r => With(r, n, t))),
        Gen.Select(OneOf(Names), n => (Func<AssetRecord, AssetRecord>)(r => With(r, n, null))),
        Gen.Select(Gen.Int[0, 1000], i => (Func<AssetRecord, AssetRecord>)(r => r with { AssetId = $"b{i}" })),
        Gen.Select(Gen.Int[0, 30], i => (Func<AssetRecord, AssetRecord>)(r => r with { Attributes = r.Attributes.Skip(i).Concat(r.Attributes.Take(i)).ToDictionary() })),
        Text.Select(t => (Func<AssetRecord, AssetRecord>)(r => r with { Category = t })));

    [Fact]
    public void KeyOf_RandomChangesOfFields_EqualKeyMeansEqualAnswer()
    {
        var (equal, different) = (0, 0);
        Gen.Select(Record, Step.Array[1, 3]).Sample(
            (record, steps) =>
            {
                var other = steps.Aggregate(record, (r, step) => step(r));
                if (EngineInput.KeyOf(record) != EngineInput.KeyOf(other))
                {
                    Interlocked.Increment(ref different);
                    return;
                }

                Interlocked.Increment(ref equal);
                Assert.Equal(Answer(record), Answer(other));
            },
            iter: 1500);
        // Neither a key that never changes nor one that always does would say anything.
        Assert.InRange(equal, 300, 1400);
        Assert.InRange(different, 100, 1200);
    }

    [Fact]
    public void KeyOf_FieldsTheEngineDoesNotRead_IsTheSame()
    {
        var record = new AssetRecord { AssetId = "P-1", Category = "pump", Attributes = Map([new("type", "centrifugal"), new("Raum", "12")]) };
        Assert.Equal(EngineInput.KeyLength, EngineInput.KeyOf(record).Length);
        Assert.Equal(EngineInput.KeyOf(record), EngineInput.KeyOf(record with { AssetId = "P-2" }));
        Assert.Equal(EngineInput.KeyOf(record), EngineInput.KeyOf(With(record, "Raum", "13")));
        Assert.Equal(EngineInput.KeyOf(record), EngineInput.KeyOf(With(record, "serialNo", "0815")));
        Assert.NotEqual(EngineInput.KeyOf(record), EngineInput.KeyOf(With(record, "type", "hose")));
        Assert.NotEqual(EngineInput.KeyOf(record), EngineInput.KeyOf(With(record, "needsPrint", "yes")));
        Assert.NotEqual(EngineInput.KeyOf(record), EngineInput.KeyOf(record with { Description = "with hose" }));
    }

    /// <summary>Over all members of all parts, so that one added later cannot be forgotten: each alone moves the key.</summary>
    [Fact]
    public void KeyOf_EveryMemberOfEveryPart_MovesIt()
    {
        var bare = EngineInput.KeyOf(new());
        var keys = new List<string> { bare };
        foreach (var part in typeof(AssetRecord).GetProperties().Where(p => p.Name is not (nameof(AssetRecord.AssetId) or nameof(AssetRecord.Attributes))))
        {
            if (part.PropertyType == typeof(string))
            {
                keys.Add(EngineInput.KeyOf(Read($$"""{"{{part.Name}}":"x"}""")));
                continue;
            }

            foreach (var member in part.PropertyType.GetProperties().Where(p => p.CanWrite))
                keys.Add(EngineInput.KeyOf(Read($$$"""{"{{{part.Name}}}":{"{{{member.Name}}}":{{{Value(member.PropertyType)}}}}}""")));
        }

        Assert.True(keys.Count > 40);
        Assert.Distinct(keys);
    }

    private static AssetRecord Read(string json) => JsonSerializer.Deserialize<AssetRecord>(json)!;

    private static string Value(Type type)
    {
        var inner = Nullable.GetUnderlyingType(type) ?? type;
        return inner == typeof(string) ? "\"x\""
            : inner == typeof(bool) ? "true"
            : inner == typeof(double) || inner == typeof(int) || inner.IsEnum ? "1"
            : inner == typeof(HazardousAreaRecord) ? """{"Zone":"1"}"""
            : """["x"]""";
    }

    private static string Answer(AssetRecord record) => JsonSerializer.Serialize(RecommendationEngine.Recommend(record, new(IncludeQuestions: false)), Everything);

    private static AssetRecord With(AssetRecord record, string name, string? value)
    {
        var attributes = record.Attributes.ToDictionary();
        attributes.Remove(name);
        if (value is not null)
            attributes.Add(name, value);
        return record with { Attributes = attributes };
    }

    private static Dictionary<string, string> Map(KeyValuePair<string, string>[] attributes)
    {
        var map = new Dictionary<string, string>();
        foreach (var (name, value) in attributes)
            map[name] = value;
        return map;
    }

    private static Gen<T> OneOf<T>(T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);
}
