using System.Globalization;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Registers;

/// <summary>
/// What a row says of one asset: only the fields it gives or takes away. Laid over the stored record it changes nothing else,
/// so that sources can share an asset and an interrupted run can be repeated.
/// </summary>
public sealed record MappedAsset : RowMapping
{
    /// <summary>The register's key.</summary>
    public required string AssetId { get; init; }

    /// <summary>Values of the mapped fields, in the order of <see cref="MappingTargets.All"/>.</summary>
    public required IReadOnlyList<MappedValue> Values { get; init; }

    /// <summary>The register's further fields; null takes an attribute away.</summary>
    public required IReadOnlyDictionary<string, string?> Attributes { get; init; }

    /// <summary>Does the row speak of the place? Then <see cref="LocationName"/> counts, also when it is null.</summary>
    public bool GivesLocation => Gives(MappingTargets.Location);

    /// <summary>The place in the register's words.</summary>
    public string? LocationName => ValueOf(MappingTargets.Location) as string;

    /// <summary>Does the row speak of the tag? Then <see cref="Tag"/> counts, also when it is null.</summary>
    public bool GivesTag => Gives(MappingTargets.Tag);

    /// <summary>The identity noted in the register's tag column, as it is written there.</summary>
    public string? Tag => ValueOf(MappingTargets.Tag) as string;

    /// <summary>Has the asset left service? Null when the row does not say.</summary>
    public bool? Retired => ValueOf(MappingTargets.Retired) as bool?;

    /// <summary>
    /// The stored record with what the row says laid over it. Above <see cref="AttributeLimits.Most"/> attributes those that the
    /// row does not give are dropped.
    /// </summary>
    /// <param name="stored">As stored, or null for a new asset.</param>
    public AssetRecord ApplyTo(AssetRecord? stored)
    {
        var record = stored ?? new AssetRecord();
        foreach (var (target, value) in Values)
        {
            if (target.Set is { } set)
                record = set(record, value);
        }

        return Attributes.Count == 0 ? record : record with { Attributes = Merge(record.Attributes) };
    }

    /// <summary>The fields in which the record would change, attributes included; place, tag and retirement are the caller's to compare.</summary>
    /// <param name="stored">As stored, or null for a new asset.</param>
    public IReadOnlyList<FieldChange> ChangesTo(AssetRecord? stored)
    {
        var before = stored ?? new AssetRecord();
        var after = ApplyTo(stored);
        var changes = new List<FieldChange>();
        // Every field, not only those of this row: taking a zone away takes its group as well, an amount brings its currency.
        foreach (var target in MappingTargets.All)
        {
            if (target.Get is { } get && TextOf(get(before)) is var b && TextOf(get(after)) is var a && a != b)
                changes.Add(new(target.Pointer, b, a));
        }

        foreach (var name in before.Attributes.Keys.Union(after.Attributes.Keys).Order(StringComparer.Ordinal))
        {
            var (b, a) = (before.Attributes.GetValueOrDefault(name), after.Attributes.GetValueOrDefault(name));
            if (a != b)
                changes.Add(new(MappingTargets.AttributePrefix + JsonPointers.Escape(name), b, a));
        }

        return changes;
    }

    private bool Gives(MappingTarget target) => Values.Any(v => ReferenceEquals(v.Target, target));

    private object? ValueOf(MappingTarget target) => Values.FirstOrDefault(v => ReferenceEquals(v.Target, target)).Value;

    private Dictionary<string, string> Merge(IReadOnlyDictionary<string, string> stored)
    {
        var merged = new Dictionary<string, string>(stored, StringComparer.Ordinal);
        foreach (var (name, value) in Attributes)
        {
            if (value is null)
                merged.Remove(name);
            else
                merged[name] = value;
        }

        // Registers rename their columns over the years: what this row does not give goes first.
        foreach (var name in stored.Keys.Where(n => !Attributes.ContainsKey(n)).Order(StringComparer.Ordinal).Take(merged.Count - AttributeLimits.Most))
            merged.Remove(name);
        return merged;
    }

    private static string? TextOf(object? value) => value switch
    {
        null => null,
        string text => text,
        bool yes => yes ? "true" : "false",
        IReadOnlyList<string> list => string.Join(", ", list),
        IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString(),
    };
}
