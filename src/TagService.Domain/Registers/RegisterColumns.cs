using System.Collections.Frozen;

namespace TagService.Domain.Registers;

/// <summary>
/// The names of a row's values, shared by rows of one shape: column names of a table, or JSON pointers (RFC 6901) of the
/// members of a JSON object.
/// </summary>
public sealed class RegisterColumns
{
    private readonly FrozenDictionary<string, int> _exact;
    private readonly FrozenDictionary<string, int> _loose;

    /// <summary>Names the values of rows.</summary>
    /// <param name="names">In order; a name that comes again is only reached by the first.</param>
    /// <param name="areJsonPointers">The names are JSON pointers.</param>
    public RegisterColumns(IReadOnlyList<string> names, bool areJsonPointers)
    {
        Names = names;
        AreJsonPointers = areJsonPointers;
        _exact = Index(names, StringComparer.Ordinal, static n => n);
        _loose = Index(names, StringComparer.OrdinalIgnoreCase, static n => n.Trim());
    }

    /// <summary>The names in order.</summary>
    public IReadOnlyList<string> Names { get; }

    /// <summary>The names are JSON pointers (RFC 6901) into the row's object.</summary>
    public bool AreJsonPointers { get; }

    /// <summary>
    /// Place of a source, or -1. A column is found by its name, else without regard to case and outer blanks; a plain name
    /// finds the member of that name at the top of a JSON object. A pointer is taken letter by letter.
    /// </summary>
    /// <param name="source">Column name or JSON pointer.</param>
    public int IndexOf(string source)
    {
        if (_exact.TryGetValue(source, out var at))
            return at;
        if (!AreJsonPointers)
            return _loose.TryGetValue(source.Trim(), out at) ? at : -1;
        return source.StartsWith('/') ? -1 : _exact.GetValueOrDefault(JsonPointers.OfMember(source), -1);
    }

    private static FrozenDictionary<string, int> Index(
        IReadOnlyList<string> names, StringComparer comparer, Func<string, string> key)
    {
        var index = new Dictionary<string, int>(comparer);
        for (var i = 0; i < names.Count; i++)
            index.TryAdd(key(names[i]), i);
        return index.ToFrozenDictionary(comparer);
    }
}
