using System.ComponentModel.DataAnnotations;
using System.Reflection;
using System.Text.Json;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Registers;

/// <summary>Builds targets of one part of the asset record; ranges and lengths are those of the record's own attributes.</summary>
/// <typeparam name="TPart">The part's record.</typeparam>
/// <param name="prefix">Pointer of the part.</param>
/// <param name="part">Reads the part.</param>
/// <param name="with">The record with the part exchanged; a part in which nothing is left becomes null.</param>
internal sealed class TargetParts<TPart>(
    string prefix, Func<AssetRecord, TPart?> part, Func<AssetRecord, TPart?, AssetRecord> with)
    where TPart : class, new()
{
    private static readonly TPart Nothing = new();

    public MappingTarget Text(string name, Func<TPart, object?> get, Func<TPart, string?, TPart> set, Func<string, bool>? recognises = null) =>
        Make(name, TargetKind.Text, get, (p, v) => set(p, (string?)v)) with { Recognises = recognises };

    public MappingTarget Number(string name, string? unit, Func<TPart, object?> get, Func<TPart, double?, TPart> set) =>
        Make(name, TargetKind.Number, get, (p, v) => set(p, (double?)v)) with { Unit = unit };

    public MappingTarget WholeNumber(string name, Func<TPart, object?> get, Func<TPart, int?, TPart> set) =>
        Make(name, TargetKind.WholeNumber, get, (p, v) => set(p, (int?)v));

    public MappingTarget YesNo(string name, Func<TPart, object?> get, Func<TPart, bool?, TPart> set) =>
        Make(name, TargetKind.YesNo, get, (p, v) => set(p, (bool?)v));

    public MappingTarget Choice<TEnum>(string name, Func<TPart, TEnum?> get, Func<TPart, TEnum?, TPart> set)
        where TEnum : struct, Enum
    {
        var byName = Enum.GetValues<TEnum>().ToDictionary(v => JsonNamingPolicy.KebabCaseLower.ConvertName(v.ToString()));
        return Make(
            name, TargetKind.Choice,
            p => get(p) is { } v ? JsonNamingPolicy.KebabCaseLower.ConvertName(v.ToString()) : null,
            (p, v) => set(p, v is string word ? byName[word] : null)) with { Choices = [.. byName.Keys] };
    }

    public MappingTarget TextList(string name, Func<TPart, object?> get, Func<TPart, IReadOnlyList<string>?, TPart> set, Func<string, bool>? recognises) =>
        Make(name, TargetKind.TextList, get, (p, v) => set(p, (IReadOnlyList<string>?)v)) with { Recognises = recognises };

    private MappingTarget Make(string name, TargetKind kind, Func<TPart, object?> get, Func<TPart, object?, TPart> set)
    {
        var property = typeof(TPart).GetProperty(char.ToUpperInvariant(name[0]) + name[1..])
            ?? throw new InvalidOperationException($"{typeof(TPart).Name} has no member {name}.");
        var range = property.GetCustomAttribute<RangeAttribute>();
        return new()
        {
            Pointer = $"{prefix}/{name}",
            Kind = kind,
            Least = range is null ? double.MinValue : Convert.ToDouble(range.Minimum, null),
            Greatest = range is null ? double.MaxValue : Convert.ToDouble(range.Maximum, null),
            Longest = property.GetCustomAttribute<MaxLengthAttribute>()?.Length ?? 200,
            Get = r => part(r) is { } p ? get(p) : null,
            Set = (r, v) => set(part(r) ?? Nothing, v) is var changed && changed.Equals(Nothing) ? with(r, null) : with(r, changed),
        };
    }
}
