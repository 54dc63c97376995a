using System.Collections.Frozen;

namespace TagService.Domain.Registers;

/// <summary>A checked mapping, ready for rows. Holds nothing of the rows it maps; safe for several threads.</summary>
public sealed class RowMapper
{
    private readonly IReadOnlyList<CompiledRow> _rows;
    private readonly FrozenSet<string> _emptyTexts;
    private readonly IReadOnlyList<string> _notKept;

    // Rows of one shape share their columns: the places are looked up once a shape.
    private volatile ColumnPlaces? _places;

    internal RowMapper(RegisterMapping mapping, IReadOnlyList<CompiledRow> rows)
    {
        Mapping = mapping;
        _rows = rows;
        _notKept = mapping.NotKept;
        _emptyTexts = mapping.EmptyTexts.Select(t => t.Trim()).ToFrozenSet(StringComparer.OrdinalIgnoreCase);
    }

    /// <summary>The mapping as written.</summary>
    public RegisterMapping Mapping { get; }

    /// <summary>Names of the columns that feed a field but are not among these columns: a register that renamed them would go unnoticed.</summary>
    /// <param name="columns">Columns of a row.</param>
    public IReadOnlyList<string> MissingSources(RegisterColumns columns) =>
        [.. _rows.Select(r => r.Row.Source).OfType<string>().Where(s => columns.PlaceOf(s).At < 0).Distinct(StringComparer.Ordinal)];

    /// <summary>Maps one row.</summary>
    /// <param name="row">The row as read.</param>
    /// <param name="asOf">Day that dates are compared with.</param>
    /// <returns>The asset, or the refusal with all problems of the row at once.</returns>
    public RowMapping Map(RegisterRow row, DateOnly asOf)
    {
        var places = PlacesOf(row.Columns);
        var problems = new List<RowProblem>();
        var values = new List<MappedValue>(_rows.Count + 1);
        var attributes = new RowAttributes();
        string? currency = null;
        for (var i = 0; i < _rows.Count; i++)
        {
            var compiled = _rows[i];
            var place = places.OfRows[i];
            var given = place.In(row);
            if (given is not { } value || IsEmpty(value))
            {
                if (compiled.Default is { } byDefault)
                    values.Add(new(compiled.Target, byDefault));
                else if (compiled.Target == MappingTargets.AssetId)
                    problems.Add(Problem(RowProblemKind.Refuses, compiled, "", "The row has no key."));
                else if (given is not null && compiled.Row.EmptyClears)
                    values.Add(new(compiled.Target, null));
                continue;
            }

            var read = ValueReading.Read(value, compiled, asOf);
            currency ??= read.Currency;
            if (read.Error is { } error)
            {
                var kind = compiled.Row.WhenNotUnderstood == WhenNotUnderstood.LeaveOut ? RowProblemKind.LeftOut : RowProblemKind.Refuses;
                problems.Add(Problem(kind, compiled, value.Text, error));
                if (kind == RowProblemKind.LeftOut)
                    attributes.Add(row.Columns, place.At, value, problems);
                continue;
            }

            values.Add(new(compiled.Target, read.Value));
            foreach (var unknown in read.Unknown ?? [])
                problems.Add(Problem(RowProblemKind.NotRecognised, compiled, unknown, "No table knows this word; recommendations assume something else and say so."));
        }

        Together(values, problems, currency);
        var assetId = values.Find(v => ReferenceEquals(v.Target, MappingTargets.AssetId)).Value as string;
        if (problems.Exists(p => p.Kind == RowProblemKind.Refuses))
            return new RowRefusal { AssetId = assetId, Problems = problems };

        TakeAttributes(values, attributes);
        foreach (var at in places.Others)
        {
            if (at < row.Values.Count)
                attributes.Add(row.Columns, at, IsEmpty(row.Values[at]) ? RegisterValue.Empty : row.Values[at], problems);
        }

        return new MappedAsset { AssetId = assetId!, Values = values, Attributes = attributes.All, Problems = problems };
    }

    // What only shows when all values of the row are there.
    private static void Together(List<MappedValue> values, List<RowProblem> problems, string? currency)
    {
        var zone = values.Find(v => ReferenceEquals(v.Target, HazardousAreaTargets.Zone)).Value;
        if (zone is null && values.Find(v => v.Value is not null && HazardousAreaTargets.IsDetail(v.Target)) is { Value: string detail } found
            && !problems.Exists(p => p.Field == HazardousAreaTargets.Zone.Pointer))
        {
            problems.Add(new(RowProblemKind.Refuses, found.Target.Pointer, null, detail, "The row gives this without a zone.", "the zone of the site's zone drawing in the same row"));
        }

        if (currency is null)
            return;
        var stated = values.Find(v => ReferenceEquals(v.Target, MappingTargets.Currency)).Value as string;
        if (stated is null)
            values.Add(new(MappingTargets.Currency, currency));
        else if (stated != currency)
            problems.Add(new(RowProblemKind.Refuses, MappingTargets.Currency.Pointer, null, stated, $"The row's amount is in {currency}, its currency says {stated}.", "one currency a row; amounts are not converted"));
    }

    private static void TakeAttributes(List<MappedValue> values, RowAttributes attributes)
    {
        for (var i = values.Count - 1; i >= 0; i--)
        {
            var (target, value) = values[i];
            if (!target.Pointer.StartsWith(MappingTargets.AttributePrefix, StringComparison.Ordinal))
                continue;
            attributes.Set(JsonPointers.Unescape(target.Pointer[MappingTargets.AttributePrefix.Length..]), value as string);
            values.RemoveAt(i);
        }
    }

    private static RowProblem Problem(RowProblemKind kind, CompiledRow row, string value, string detail) =>
        new(kind, row.Target.Pointer, row.Row.Source, MappingTexts.Quote(value), detail, row.IsDate ? "a date" : row.Target.Accepts);

    private bool IsEmpty(in RegisterValue value) =>
        value.Kind == RegisterValueKind.Empty
        || (value.Kind == RegisterValueKind.Text && (string.IsNullOrWhiteSpace(value.Text) || _emptyTexts.Contains(value.Text.Trim())));

    private ColumnPlaces PlacesOf(RegisterColumns columns)
    {
        var places = _places;
        if (places is null || !ReferenceEquals(places.Columns, columns))
            _places = places = ColumnPlaces.Of(columns, _rows, _notKept);
        return places;
    }
}
