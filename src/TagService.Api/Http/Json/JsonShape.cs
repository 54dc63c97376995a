using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Reflection;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;

namespace TagService.Api.Http.Json;

/// <summary>What kind of JSON value a type is written as.</summary>
internal enum ShapeKind
{
    Object,
    List,
    Map,
    Text,
    Number,
    WholeNumber,
    Boolean,
    Choice,
    Any,

    /// <summary>A converter's own form (dates, identifiers): it is asked by trying.</summary>
    Converted,
}

/// <summary>One member of an object.</summary>
internal sealed record JsonMember(
    string Name, JsonShape Shape, MemberRules Rules, bool Required, bool MayBeNull, bool ItemsMayBeNull, PropertyInfo Property);

/// <summary>The shape of a type on the wire, taken from the serializer's own contract, so the two cannot disagree.</summary>
internal sealed class JsonShape
{
    private static readonly ConcurrentDictionary<Type, JsonShape> Cache = new();

    private readonly JsonTypeInfo _info;
    private readonly Lazy<FrozenDictionary<string, JsonMember>> _members;
    private readonly Lazy<FrozenDictionary<string, string>> _places;

    private JsonShape(Type type)
    {
        Type = Nullable.GetUnderlyingType(type) ?? type;
        _info = WireJson.Options.GetTypeInfo(Type);
        Kind = KindOf(Type, _info.Kind);
        Choices = Kind == ShapeKind.Choice ? ChoicesOf(Type) : [];
        WelcomesOthers = _info.Properties.Any(p => p.IsExtensionData);
        _members = new(() => _info.Properties.Where(p => !p.IsExtensionData && p.AttributeProvider is PropertyInfo)
            .Select(Member).ToFrozenDictionary(m => m.Name));
        _places = new(() => KnownPlaces.Below(this));
    }

    public Type Type { get; }

    public ShapeKind Kind { get; }

    /// <summary>Names of an enumeration on the wire.</summary>
    public IReadOnlyList<string> Choices { get; }

    public FrozenDictionary<string, JsonMember> Members => _members.Value;

    /// <summary>Of list items and map values.</summary>
    public JsonShape? Item => _info.ElementType is { } element ? Of(element) : null;

    /// <summary>The type collects members it does not have.</summary>
    public bool WelcomesOthers { get; }

    /// <summary>Pointers of members that stand deeper than this object, by name.</summary>
    public FrozenDictionary<string, string> Places => _places.Value;

    public JsonTypeInfo Info => _info;

    public static JsonShape Of(Type type) => Cache.GetOrAdd(Nullable.GetUnderlyingType(type) ?? type, static t => new JsonShape(t));

    private static JsonMember Member(JsonPropertyInfo p)
    {
        var property = (PropertyInfo)p.AttributeProvider!;
        var required = p.IsRequired || p.AssociatedParameter is { HasDefaultValue: false, IsMemberInitializer: false };
        var nullable = p.IsSetNullable && (!p.PropertyType.IsValueType || Nullable.GetUnderlyingType(p.PropertyType) is not null);
        return new(p.Name, Of(p.PropertyType), MemberRules.Of(property), required, nullable, Nullability.OfItems(property), property);
    }

    private static ShapeKind KindOf(Type type, JsonTypeInfoKind kind) => kind switch
    {
        JsonTypeInfoKind.Object => ShapeKind.Object,
        JsonTypeInfoKind.Enumerable => ShapeKind.List,
        JsonTypeInfoKind.Dictionary => ShapeKind.Map,
        _ when type == typeof(string) => ShapeKind.Text,
        _ when type == typeof(bool) => ShapeKind.Boolean,
        _ when type == typeof(double) || type == typeof(float) || type == typeof(decimal) => ShapeKind.Number,
        _ when type == typeof(int) || type == typeof(long) || type == typeof(short) || type == typeof(byte) => ShapeKind.WholeNumber,
        _ when type.IsEnum => ShapeKind.Choice,
        _ when type == typeof(JsonElement) || type == typeof(object) => ShapeKind.Any,
        _ => ShapeKind.Converted,
    };

    private static string[] ChoicesOf(Type type) =>
        [.. type.GetFields(BindingFlags.Public | BindingFlags.Static).Select(f =>
            f.GetCustomAttribute<JsonStringEnumMemberNameAttribute>()?.Name ?? JsonNamingPolicy.KebabCaseLower.ConvertName(f.Name))];
}
