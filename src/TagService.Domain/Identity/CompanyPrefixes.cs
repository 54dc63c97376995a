namespace TagService.Domain.Identity;

/// <summary>
/// The GS1 company prefixes the owner has licensed. Bits of the <c>+</c> schemes and element strings do not say where the
/// company prefix ends; URNs need to know it.
/// </summary>
public sealed class CompanyPrefixes
{
    private readonly string[] _longestFirst;

    /// <summary>The prefixes, each of 6 to 12 digits.</summary>
    /// <param name="prefixes">Digits.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not 6 to 12 digits; check what people enter with <see cref="IsPrefix"/>.</exception>
    public CompanyPrefixes(params IEnumerable<string> prefixes)
    {
        _longestFirst = [.. prefixes.OrderByDescending(p => p.Length)];
        foreach (var prefix in _longestFirst)
        {
            if (!IsPrefix(prefix))
                throw new ArgumentOutOfRangeException(nameof(prefixes), prefix, $"{prefix} is not a company prefix; accepted: 6 to 12 digits.");
        }
    }

    /// <summary>No prefixes.</summary>
    public static CompanyPrefixes None { get; } = new();

    /// <summary>Has it the form of a GS1 company prefix: 6 to 12 digits?</summary>
    /// <param name="text">The digits.</param>
    public static bool IsPrefix(ReadOnlySpan<char> text) => text.Length is >= 6 and <= 12 && CharacterSet.Digits.Holds(text);

    /// <summary>Digits of the longest licensed prefix this identity begins with; null when none fits.</summary>
    /// <param name="key">A GS1 key.</param>
    public int? LengthFor(IdentityKey key)
    {
        if (_longestFirst.Length == 0 || KeyFormats.Find(key.Kind) is not { } format)
            return null;
        var value = key.Value().AsSpan(format.PrefixStart);
        foreach (var prefix in _longestFirst)
        {
            if (value.StartsWith(prefix, StringComparison.Ordinal))
                return prefix.Length;
        }

        return null;
    }
}
