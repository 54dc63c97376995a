using System.Collections.Frozen;
using System.Globalization;
using TagService.Domain.Words;

namespace TagService.Domain.Registers;

/// <summary>Checks a mapping and resolves its names; collects all that is wrong.</summary>
internal sealed class MappingCheck
{
    private readonly List<MappingIssue> _issues = [];
    private readonly List<CompiledRow> _rows = [];

    public MappingCheck(RegisterMapping mapping)
    {
        if (mapping.Rows.Count > RegisterMapping.MostRows)
            Add("/rows", mapping.Rows.Count.ToString(CultureInfo.InvariantCulture), "The mapping has too many rows.", $"at most {RegisterMapping.MostRows} rows");
        for (var i = 0; i < Math.Min(mapping.Rows.Count, RegisterMapping.MostRows); i++)
            Row(mapping.Rows[i], $"/rows/{i}");
        foreach (var doubled in _rows.GroupBy(r => r.Target.Pointer).Where(g => g.Count() > 1))
        {
            var sources = string.Join(" and ", doubled.Select(r => r.Row.Source ?? "a default"));
            Add("/rows", doubled.Key, $"{doubled.Key} is fed by {sources}.", "one source a field");
        }

        if (_rows.All(r => r.Target != MappingTargets.AssetId))
            Add("/rows", null, "No row feeds /assetId, the key of the asset.", "a row with the target /assetId");
        if (_rows.Any(r => HazardousAreaTargets.IsDetail(r.Target)) && _rows.All(r => r.Target != HazardousAreaTargets.Zone))
            Add("/rows", null, "Group and temperature class of an explosive atmosphere mean nothing without its zone.", $"a row with the target {HazardousAreaTargets.Zone.Pointer}");
        _rows.Sort(ByTarget);
    }

    public IReadOnlyList<MappingIssue> Issues => _issues;

    /// <summary>In the order of <see cref="MappingTargets.All"/>: a zone is set before its group, a currency before an amount's.</summary>
    public IReadOnlyList<CompiledRow> Rows => _rows;

    private static int ByTarget(CompiledRow a, CompiledRow b) => PlaceOf(a).CompareTo(PlaceOf(b));

    private static int PlaceOf(CompiledRow row)
    {
        for (var i = 0; i < MappingTargets.All.Count; i++)
        {
            if (ReferenceEquals(MappingTargets.All[i], row.Target))
                return i;
        }

        return int.MaxValue;
    }

    private void Row(MappingRow row, string at)
    {
        if (MappingTargets.Find(row.Target) is not { } target)
        {
            Add(at + "/target", row.Target, $"There is no field {MappingTexts.Quote(row.Target)}.", MappingTargets.Nearest(row.Target) is { } near ? $"did you mean {near}?" : "a pointer such as /surface/material or /attributes/name");
            return;
        }

        if (row.Source is null && row.Default is null)
            Add(at + "/source", null, $"Nothing feeds {target.Pointer}.", "a source or a default");
        if (row.Source is { } source && (source.Trim().Length == 0 || (source[0] == '/' && !JsonPointers.IsValid(source))))
            Add(at + "/source", source, "This is neither a column name nor a JSON pointer.", "a column name, or a JSON pointer of RFC 6901, in which ~ is written ~0");
        var unit = UnitOf(row, target, at, out var isDate);
        if (row.Currency is { } currency && (target.Kind != TargetKind.Money || MoneyReading.CurrencyOf(currency) != currency))
            Add(at + "/currency", currency, target.Kind == TargetKind.Money ? "This is no currency code." : $"{target.Pointer} is no amount.", "an ISO 4217 code of three capital letters, on an amount only");
        if (row.ListSeparators is { Length: 0 } || (row.ListSeparators is not null && target.Kind != TargetKind.TextList))
            Add(at + "/listSeparators", row.ListSeparators, $"{target.Pointer} is {(target.Kind == TargetKind.TextList ? "a list: name at least one separator" : "no list")}.", null);
        if (row.WhenNotUnderstood == WhenNotUnderstood.LeaveOut && target.IsVital)
            Add(at + "/whenNotUnderstood", "leave-out", $"A value of {target.Pointer} that is not understood always refuses the row.", "refuse-row");
        if (row.EmptyClears && (row.Default is not null || target == MappingTargets.AssetId))
            Add(at + "/emptyClears", "true", target == MappingTargets.AssetId ? "The key cannot be taken away." : "An empty cell can take the default or take the value away, not both.", "false");

        var compiled = new CompiledRow(row, target, unit, isDate, Table(row, target, at), null);
        _rows.Add(compiled with { Default = row.Default is { } d ? Ours(d, compiled, at + "/default") : null });
    }

    private RegisterUnit? UnitOf(MappingRow row, MappingTarget target, string at, out bool isDate)
    {
        isDate = false;
        if (row.Unit is not { } text)
            return null;
        if (text == MappingRow.DateUnit)
        {
            isDate = target.TakesDate;
            if (!isDate)
                Add(at + "/unit", text, $"{target.Pointer} takes no date.", target.Accepts);
            return null;
        }

        if (target.Unit is not { } own)
        {
            Add(at + "/unit", text, $"{target.Pointer} has no unit.", target.TakesDate ? "date, or none" : "none");
            return null;
        }

        var dimension = RegisterUnits.Table[own].Dimension;
        var unit = RegisterUnits.Find(text, dimension);
        if (unit is null)
        {
            var ids = RegisterUnits.IdsOf(dimension).ToArray();
            var near = ids.MinBy(id => EditDistance.Between(id, text));
            Add(at + "/unit", text, $"{MappingTexts.Quote(text)} is no unit of {dimension.ToString().ToLowerInvariant()}.", $"did you mean {near}? One of {string.Join(", ", ids)}{(target.TakesDate ? ", date" : "")}");
        }

        return unit;
    }

    private FrozenDictionary<string, string> Table(MappingRow row, MappingTarget target, string at)
    {
        var table = new Dictionary<string, string>(StringComparer.Ordinal);
        var plain = new CompiledRow(row, target, null, false, FrozenDictionary<string, string>.Empty, null);
        foreach (var (theirs, ours) in row.ValueTable)
        {
            var place = $"{at}/valueTable/{JsonPointers.Escape(theirs)}";
            if (!table.TryAdd(ValueReading.ValueKey(theirs), ours) && table[ValueReading.ValueKey(theirs)] != ours)
                Add(place, theirs, "The same word stands there twice with different meanings.", "each word once, without regard to case and accents");
            Ours(ours, plain, place);
        }

        return table.ToFrozenDictionary(StringComparer.Ordinal);
    }

    // Defaults and the right side of value tables are in our own unit and words.
    private object? Ours(string text, CompiledRow row, string at)
    {
        if (string.IsNullOrWhiteSpace(text))
        {
            Add(at, text, "It is empty.", row.Target.Accepts);
            return null;
        }

        var ours = row with { Unit = null, IsDate = false, Table = FrozenDictionary<string, string>.Empty, Row = row.Row with { DecimalMark = DecimalMark.Point } };
        var read = ValueReading.Read(RegisterValue.OfText(text), ours, DateOnly.MinValue);
        if (read.Error is { } error)
            Add(at, text, error, row.Target.Accepts);
        return read.Value;
    }

    private void Add(string pointer, string? value, string detail, string? accepted) =>
        _issues.Add(new(pointer, value is null ? null : MappingTexts.Quote(value), detail, accepted));
}
