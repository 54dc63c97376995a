using System.Globalization;

namespace TagService.Domain.Registers;

/// <summary>Collects the attributes of one row within their limits.</summary>
internal sealed class RowAttributes
{
    private readonly Dictionary<string, string?> _all = new(StringComparer.Ordinal);

    public IReadOnlyDictionary<string, string?> All => _all;

    /// <summary>Keeps a register's own column under its own name; members of nested objects with points between.</summary>
    public void Add(RegisterColumns columns, int at, in RegisterValue value, List<RowProblem> problems)
    {
        if (value.Kind is RegisterValueKind.Structure or RegisterValueKind.Error)
            return;
        var source = columns.Names[at];
        var name = columns.AreJsonPointers ? string.Join('.', JsonPointers.Tokens(source)) : source.Trim();
        var text = value.Kind == RegisterValueKind.Empty ? null : value.Text;
        if (name.Length is 0 or > AttributeLimits.LongestName || text?.Length > AttributeLimits.LongestValue)
        {
            problems.Add(Cut(name, source, text, "Its name or value is too long; the beginning is kept."));
            name = name.Length == 0 ? "(no name)" : Start(name, AttributeLimits.LongestName);
            text = text is null ? null : Start(text, AttributeLimits.LongestValue);
        }

        if (name.Contains('\0', StringComparison.Ordinal) || text?.Contains('\0', StringComparison.Ordinal) == true)
        {
            problems.Add(Cut(name, source, text, "It holds characters that are no text; they are replaced."));
            (name, text) = (name.Replace('\0', '\uFFFD'), text?.Replace('\0', '\uFFFD'));
        }

        if (_all.Count >= AttributeLimits.Most && !_all.ContainsKey(name))
        {
            if (text is not null)
                problems.Add(Cut(name, source, text, "The row has too many columns that feed no field; this one is dropped."));
            return;
        }

        _all[name] = text;
    }

    /// <summary>Sets an attribute that the mapping names.</summary>
    public void Set(string name, string? value) => _all[name] = value;

    // Not between the halves of a surrogate pair.
    private static string Start(string text, int length) =>
        text.Length <= length ? text : text[..(char.IsHighSurrogate(text[length - 1]) ? length - 1 : length)];

    private static RowProblem Cut(string name, string source, string? value, string detail) => new(
        RowProblemKind.Cut, MappingTargets.AttributePrefix + JsonPointers.Escape(Start(name, AttributeLimits.LongestName)), source, MappingTexts.Quote(value ?? ""), detail,
        string.Create(CultureInfo.InvariantCulture, $"at most {AttributeLimits.Most} attributes, names of {AttributeLimits.LongestName} and values of {AttributeLimits.LongestValue} characters"));
}
