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

    /// <summary>Place of a source, also of one item of a list by its number (<c>/phones/0</c>).</summary>
    internal ValuePlace PlaceOf(string source)
    {
        if (IndexOf(source) is >= 0 and var at)
            return new(at, -1);
        var slash = AreJsonPointers ? source.LastIndexOf('/') : -1;
        // RFC 6901, section 4: digits without leading zeros.
        if (slash <= 0 || source[(slash + 1)..] is not { Length: > 0 and < 6 } digits || !digits.All(char.IsAsciiDigit) || (digits[0] == '0' && digits.Length > 1))
            return new(-1, -1);
        return _exact.TryGetValue(source[..slash], out at)
            ? new(at, int.Parse(digits, System.Globalization.CultureInfo.InvariantCulture))
            : new(-1, -1);
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
