using System.Collections.Frozen;

namespace TagService.Domain.Reference;

/// <summary>The rows of one reference table, in file order and by key.</summary>
/// <typeparam name="T">The row's record.</typeparam>
public sealed class ReferenceTable<T>
    where T : class
{
    private readonly FrozenDictionary<string, T> _byKey;
    private readonly string _name;

    /// <summary>Reads and indexes a table.</summary>
    /// <param name="fileName">Name of the embedded file.</param>
    /// <param name="key">The row's key, unique without regard to case.</param>
    /// <exception cref="InvalidOperationException">Two rows share a key, or the file does not read.</exception>
    public ReferenceTable(string fileName, Func<T, string> key)
    {
        All = ReferenceData.Load<T>(fileName);
        _name = fileName;
        var doubled = All.GroupBy(key, StringComparer.OrdinalIgnoreCase).FirstOrDefault(g => g.Count() > 1);
        if (doubled is not null)
            throw new InvalidOperationException($"{fileName} has the key {doubled.Key} twice.");
        _byKey = All.ToFrozenDictionary(key, StringComparer.OrdinalIgnoreCase);
    }

    /// <summary>All rows in file order.</summary>
    public IReadOnlyList<T> All { get; }

    /// <summary>The row with this key.</summary>
    /// <exception cref="KeyNotFoundException">No such row: a mistake in code or data, not in a request.</exception>
    public T this[string key] =>
        _byKey.TryGetValue(key, out var row) ? row : throw new KeyNotFoundException($"{_name} has no row {key}.");

    /// <summary>The row with this key, or null.</summary>
    public T? Find(string? key) => key is not null && _byKey.TryGetValue(key, out var row) ? row : null;
}
