using System.Globalization;
using System.Text.Json;
using TagService.Domain.Registers;

namespace TagService.Intake.Registers.Http;

/// <summary>
/// A JSON object as a register row: one value a plain member, named by its JSON pointer. Rows of one shape share their names. Not
/// safe for several threads.
/// </summary>
internal sealed class JsonRowFlattener
{
    private const int MostValues = 500;
    private const int Deepest = 16;

    private readonly List<(string Prefix, string Name, string Pointer)> _last = [];
    private readonly List<(string Prefix, string Name, string Pointer)> _names = [];
    private readonly List<RegisterValue> _values = [];
    private RegisterColumns _columns = new([], areJsonPointers: true);

    /// <summary>The row, or why the JSON value is none.</summary>
    public RegisterRow? Flatten(ReadOnlySpan<byte> json, out string? reason)
    {
        _names.Clear();
        _values.Clear();
        var reader = new Utf8JsonReader(json, new JsonReaderOptions { MaxDepth = JsonRowReader.MaxDepth });
        try
        {
            reader.Read();
            reason = reader.TokenType == JsonTokenType.StartObject ? Object(ref reader, "", 1) : "It is no JSON object.";
        }
        catch (InvalidOperationException)
        {
            reason = "It holds text that is not UTF-8, or half of a surrogate pair.";
        }

        reason ??= Reshape();
        return reason is null ? new(_columns, _values.ToArray()) : null;
    }

    private string? Object(ref Utf8JsonReader reader, string prefix, int depth)
    {
        if (depth > Deepest)
            return string.Create(CultureInfo.InvariantCulture, $"It is nested deeper than {Deepest} levels.");
        while (reader.Read() && reader.TokenType != JsonTokenType.EndObject)
        {
            var named = Name(ref reader, prefix);
            reader.Read();
            if (Value(ref reader, named, depth) is { } reason)
                return reason;
        }

        return null;
    }

    private string? Value(ref Utf8JsonReader reader, (string, string, string Pointer) named, int depth)
    {
        if (_values.Count >= MostValues)
            return string.Create(CultureInfo.InvariantCulture, $"It has more than {MostValues} values.");
        switch (reader.TokenType)
        {
            case JsonTokenType.StartObject:
                Add(named, new(RegisterValueKind.Structure, "{…}"));
                return Object(ref reader, named.Pointer, depth + 1);
            case JsonTokenType.StartArray:
                return Array(ref reader, named, depth);
            default:
                Add(named, Plain(ref reader));
                return null;
        }
    }

    private string? Array(ref Utf8JsonReader reader, (string, string, string Pointer) named, int depth)
    {
        if (depth >= Deepest)
            return string.Create(CultureInfo.InvariantCulture, $"It is nested deeper than {Deepest} levels.");
        var at = _values.Count;
        Add(named, RegisterValue.Empty);
        var items = new List<string>();
        var isPlain = true;
        for (var i = 0; reader.Read() && reader.TokenType != JsonTokenType.EndArray; i++)
        {
            if (i >= MostValues)
                return string.Create(CultureInfo.InvariantCulture, $"A list in it has more than {MostValues} items.");
            if (reader.TokenType is JsonTokenType.StartObject or JsonTokenType.StartArray)
            {
                isPlain = false;
                var index = i.ToString(CultureInfo.InvariantCulture);
                if (Value(ref reader, (named.Pointer, index, $"{named.Pointer}/{index}"), depth + 1) is { } reason)
                    return reason;
            }
            else if (Plain(ref reader) is { Kind: not RegisterValueKind.Empty } item)
            {
                items.Add(item.Text);
            }
        }

        _values[at] = isPlain ? RegisterValue.OfList(items) : new(RegisterValueKind.Structure, "[…]");
        return null;
    }

    private static RegisterValue Plain(ref Utf8JsonReader reader) => reader.TokenType switch
    {
        JsonTokenType.String => RegisterValue.OfText(reader.GetString()),
        JsonTokenType.Number => RegisterValue.OfNumber(System.Text.Encoding.UTF8.GetString(reader.ValueSpan)),
        JsonTokenType.True => RegisterValue.OfYesNo(true),
        JsonTokenType.False => RegisterValue.OfYesNo(false),
        _ => RegisterValue.Empty,
    };

    // Most rows have the members of the row before in its order: then no text is made.
    private (string, string, string) Name(ref Utf8JsonReader reader, string prefix)
    {
        var at = _names.Count;
        if (at < _last.Count && _last[at].Prefix == prefix && reader.ValueTextEquals(_last[at].Name))
            return _last[at];
        var name = reader.GetString()!;
        return (prefix, name, $"{prefix}/{JsonPointers.Escape(name)}");
    }

    private void Add((string, string, string) named, RegisterValue value)
    {
        _names.Add(named);
        _values.Add(value);
    }

    private string? Reshape()
    {
        var same = _names.Count == _last.Count;
        for (var i = 0; same && i < _names.Count; i++)
            same = _names[i].Pointer == _last[i].Pointer;
        if (same)
            return null;
        // RFC 8259, section 4: what a repeated name means is left open, so it means nothing here.
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (_, _, pointer) in _names)
        {
            if (!seen.Add(pointer))
                return $"The member {(pointer.Length <= 80 ? pointer : pointer[..80] + "…")} is there twice.";
        }

        _last.Clear();
        _last.AddRange(_names);
        _columns = new([.. _names.Select(n => n.Pointer)], areJsonPointers: true);
        return null;
    }
}
