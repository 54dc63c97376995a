using System.Globalization;
using TagService.Domain.Identity.Text;

namespace TagService.Domain.Identity;

/// <summary>
/// One identity as a small value: two are equal when they decode to the same key, whatever scheme, filter or text form they
/// came from (TDS 2.3: the filter is no part of the identity; the <c>+</c> schemes have no URN of their own, so keys are compared
/// by AI and value). All-digit keys of up to 38 digits, which is every key of the 96-bit schemes, hold no object.
/// <para>
/// Canonical text (<see cref="ToString"/>, for storage; stable): for GS1 keys the path of the canonical Digital Link with colons,
/// <c>8004:95211415678</c>, <c>01:09506000134352:21:32a%2Fb</c>, values percent-encoded as in RFC 3986, so that it is one segment
/// of a URL and one field of a CSV; <c>urn:epc:id:...</c> for GID, ADI and USDoD; <c>urn:epc:raw:...</c> for the rest.
/// </para>
/// </summary>
public readonly partial struct IdentityKey : IEquatable<IdentityKey>, IComparable<IdentityKey>
{
    /// <summary>Most characters of the canonical text: an ADI whose 62 characters are all escaped.</summary>
    public const int MaxTextLength = 209;

    // All-digit value; packed fields of GID and USDoD; raw bits up to 128, right-aligned.
    private readonly UInt128 _number;

    // The value otherwise: primary and serial joined; fields of ADI joined by dots; raw bits as hex.
    private readonly string? _text;

    // Characters of the value; bits of raw.
    private readonly ushort _length;

    // Characters of the primary key; for raw the AFI.
    private readonly byte _split;

    private readonly IdentityKind _kind;

    private readonly bool _hasAfi;

    private IdentityKey(IdentityKind kind, UInt128 number, string? text, int length, int split, bool hasAfi = false)
    {
        _kind = kind;
        _number = number;
        _text = text;
        _length = (ushort)length;
        _split = (byte)split;
        _hasAfi = hasAfi;
    }

    /// <summary>What it is the identity of.</summary>
    public IdentityKind Kind => _kind;

    /// <summary>AI of the key, for example <c>8004</c>; null for kinds outside the GS1 keys.</summary>
    public string? Ai => KeyFormats.Find(_kind)?.Ai;

    /// <summary>The key without serial: GTIN, GLN, <c>0</c> and GRAI, GIAI; null for kinds outside the GS1 keys.</summary>
    public string? Primary => KeyFormats.Find(_kind) is null ? null : Value()[.._split];

    /// <summary>The serial or extension; null where there is none.</summary>
    public string? Serial => KeyFormats.Find(_kind) is null || _split == _length ? null : Value()[_split..];

    /// <summary>Value of <see cref="Ai"/>: the key, with the serial behind it where the AI has both; null for kinds outside the GS1 keys.</summary>
    public string? AiValue => KeyFormats.Find(_kind) is not { } format ? null : format.SerialAi is null ? Value() : Primary;

    /// <summary>AI of the serial where it has one of its own and is there; null otherwise.</summary>
    public string? SerialAi => _split == _length ? null : KeyFormats.Find(_kind)?.SerialAi;

    /// <summary>The company prefix, when so many digits of the key are one; null for kinds without and for lengths that do not fit.</summary>
    /// <param name="length">Digits of the prefix, 6 to 12.</param>
    public string? CompanyPrefix(int length) =>
        KeyFormats.Find(_kind) is { } format && length is >= 6 and <= 12 && Primary is { } primary && primary.Length > format.PrefixStart + length
        && CompanyPrefixes.IsPrefix(primary.AsSpan(format.PrefixStart, length))
            ? primary.Substring(format.PrefixStart, length)
            : null;

    /// <summary>Equal when kind and value are.</summary>
    public static bool operator ==(IdentityKey a, IdentityKey b) => a.Equals(b);

    /// <summary>Different in kind or value.</summary>
    public static bool operator !=(IdentityKey a, IdentityKey b) => !a.Equals(b);

    /// <summary>Before in the order of <see cref="CompareTo"/>.</summary>
    public static bool operator <(IdentityKey a, IdentityKey b) => a.CompareTo(b) < 0;

    /// <summary>After in the order of <see cref="CompareTo"/>.</summary>
    public static bool operator >(IdentityKey a, IdentityKey b) => a.CompareTo(b) > 0;

    /// <summary>Before or equal.</summary>
    public static bool operator <=(IdentityKey a, IdentityKey b) => a.CompareTo(b) <= 0;

    /// <summary>After or equal.</summary>
    public static bool operator >=(IdentityKey a, IdentityKey b) => a.CompareTo(b) >= 0;

    /// <summary>Reads the canonical text; every other spelling, even of the same identity, is refused (see <see cref="IdentityText"/> for those).</summary>
    /// <param name="text">Text made by <see cref="ToString"/>.</param>
    /// <param name="key">The identity.</param>
    public static bool TryParse(string? text, out IdentityKey key)
    {
        key = text is not null && IdentityText.Parse(text) is IdentityRead read ? read.Key : default;
        return text is not null && string.Equals(key.ToString(), text, StringComparison.Ordinal);
    }

    /// <summary>Reads the canonical text.</summary>
    /// <param name="text">Text made by <see cref="ToString"/>.</param>
    /// <exception cref="FormatException">Not the canonical text of an identity.</exception>
    public static IdentityKey Parse(string text) =>
        TryParse(text, out var key) ? key : throw new FormatException($"{text} is not the canonical text of an identity.");

    /// <summary>Kind and value are the same.</summary>
    public bool Equals(IdentityKey other) =>
        _number == other._number && _kind == other._kind && _length == other._length && _split == other._split
        && _hasAfi == other._hasAfi && string.Equals(_text, other._text, StringComparison.Ordinal);

    /// <inheritdoc />
    public override bool Equals(object? obj) => obj is IdentityKey other && Equals(other);

    /// <inheritdoc />
    public override int GetHashCode() => HashCode.Combine(_number, _text, _length, _split, _kind);

    /// <summary>A total order that goes with equality: by kind, length, then value. For sorting, of no further meaning.</summary>
    public int CompareTo(IdentityKey other)
    {
        var order = _kind.CompareTo(other._kind);
        order = order != 0 ? order : _length.CompareTo(other._length);
        order = order != 0 ? order : _split.CompareTo(other._split);
        order = order != 0 ? order : _hasAfi.CompareTo(other._hasAfi);
        order = order != 0 ? order : _number.CompareTo(other._number);
        return order != 0 ? order : string.CompareOrdinal(_text, other._text);
    }

    /// <summary>The canonical text.</summary>
    public override string ToString() => IdentityForms.Canonical(this);

    /// <summary>The value of a GS1 key without AIs, or the fields of ADI joined by dots.</summary>
    internal string Value() => _text ?? Digits(_number, _length);

    /// <summary>The primary key as a number; for keys whose primary has digits only.</summary>
    internal UInt128 PrimaryNumber => _text is null
        ? _number / PowersOfTen.Of(_length - _split)
        : UInt128.Parse(_text.AsSpan(0, _split), CultureInfo.InvariantCulture);

    internal int SerialLength => _length - _split;

    internal static string Digits(UInt128 number, int length) =>
        string.Create(length, number, static (span, n) => WriteDigits(span, n));

    /// <summary>The number's last digits, as many as the span has places.</summary>
    internal static void WriteDigits(Span<char> digits, UInt128 number)
    {
        for (var i = digits.Length; i > 0;)
        {
            // One wide division for 19 digits.
            (number, var low) = UInt128.DivRem(number, PowersOfTen.Of(19));
            var part = (ulong)low;
            for (var stop = Math.Max(0, i - 19); i > stop;)
            {
                (part, var digit) = Math.DivRem(part, 10);
                digits[--i] = (char)('0' + digit);
            }
        }
    }
}
