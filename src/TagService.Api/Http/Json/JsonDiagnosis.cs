using System.Text.Json;
using TagService.Api.Http.Problems;

namespace TagService.Api.Http.Json;

/// <summary>
/// Walks a refused body once more, against the shape of its type, and lists all that is wrong with it and where.
/// Slow and thorough; a body that is fine never comes here.
/// </summary>
internal ref struct JsonDiagnosis
{
    private const int MaxErrors = 50;

    private readonly ReadOnlySpan<byte> _json;
    private readonly JsonShape _root;
    private readonly JsonReadOptions _options;
    private readonly List<ProblemError> _errors = [];
    private readonly JsonPath _path = new();
    private Utf8JsonReader _reader;

    private JsonDiagnosis(ReadOnlySpan<byte> json, JsonShape root, JsonReadOptions options)
    {
        _json = json;
        _root = root;
        _options = options;
        _reader = new Utf8JsonReader(json, new JsonReaderOptions { MaxDepth = WireJson.MaxDepth });
    }

    /// <summary>What is wrong; null if nothing was found.</summary>
    public static ApiProblem? Of(ReadOnlySpan<byte> json, JsonShape root, JsonReadOptions options)
    {
        if (json.Trim(" \t\r\n"u8).IsEmpty)
            return Malformed(new ProblemError("#", null, "The body is empty.", "one JSON object"));
        if (JsonText.FirstInvalidByte(json) is >= 0 and var at)
            return Malformed(SyntaxMessages.InvalidUtf8(json, at));
        return new JsonDiagnosis(json, root, options).Walk();
    }

    private static ApiProblem Malformed(params IReadOnlyList<ProblemError> errors) =>
        new(ProblemTypes.MalformedBody, errors[^1].Detail, errors);

    private ApiProblem? Walk()
    {
        try
        {
            _reader.Read();
            Value(_root, null);
            _reader.Read();
        }
        catch (JsonException e)
        {
            Add(SyntaxMessages.Of(_json, e, _reader.CurrentDepth, _path.Pointer));
            return Malformed(_errors);
        }

        if (_errors.Count == 0)
            return null;
        var detail = _errors.Count == 1 ? _errors[0].Detail : $"{_errors.Count} places are wrong; the first: {_errors[0].Detail}";
        return new ApiProblem(ProblemTypes.InvalidFields, detail, _errors);
    }

    private void Value(JsonShape shape, JsonMember? member)
    {
        if (_reader.TokenType == JsonTokenType.Null && shape.Kind != ShapeKind.Any)
        {
            if (member is null or { MayBeNull: false })
                Add("null", $"{Here} must not be null.", ValueMessages.Accepted(shape, member));
            return;
        }

        switch (shape.Kind)
        {
            case ShapeKind.Object when _reader.TokenType == JsonTokenType.StartObject:
                Object(shape);
                break;
            case ShapeKind.Map when _reader.TokenType == JsonTokenType.StartObject:
                Map(shape, member);
                break;
            case ShapeKind.List when _reader.TokenType == JsonTokenType.StartArray:
                List(shape, member);
                break;
            case ShapeKind.Any:
                Anything();
                break;
            case ShapeKind.Object or ShapeKind.Map or ShapeKind.List:
                WrongType(shape, member);
                break;
            default:
                Scalar(shape, member);
                break;
        }
    }

    private void Object(JsonShape shape)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        while (_reader.Read() && _reader.TokenType != JsonTokenType.EndObject)
        {
            var name = Enter(seen);
            if (shape.Members.TryGetValue(name, out var member))
                Value(member.Shape, member);
            else
                OtherMember(shape, name);
            _path.Pop();
        }

        foreach (var member in shape.Members.Values.Where(m => m.Required && !seen.Contains(m.Name)).OrderBy(m => m.Name, StringComparer.Ordinal))
        {
            _path.Push(member.Name);
            Add(null, $"{member.Name} is missing.", ValueMessages.Accepted(member.Shape, member));
            _path.Pop();
        }
    }

    private void OtherMember(JsonShape shape, string name)
    {
        var place = _root.Places.GetValueOrDefault(name) ?? (_root.Members.ContainsKey(name) ? $"/{name}" : null);
        var welcome = shape.WelcomesOthers && !_options.RefuseOtherMembers && (place is null || _options.NotMisplaced.Contains(name));
        if (!welcome)
            Add(Excerpt(), ValueMessages.Unknown(name, place), ValueMessages.AcceptedNames(shape, name, place));
        Anything();
    }

    private void Map(JsonShape shape, JsonMember? member)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        while (_reader.Read() && _reader.TokenType != JsonTokenType.EndObject)
        {
            Enter(seen);
            Item(shape, member);
            _path.Pop();
        }

        if (member is not null && !member.Rules.LengthFits(seen.Count))
            Add(null, $"{Here} has {seen.Count} members.", ValueMessages.AcceptedCount(member, "members"));
    }

    private void List(JsonShape shape, JsonMember? member)
    {
        var count = 0;
        for (; _reader.Read() && _reader.TokenType != JsonTokenType.EndArray; count++)
        {
            _path.Push(count.ToString(System.Globalization.CultureInfo.InvariantCulture));
            Item(shape, member);
            _path.Pop();
        }

        if (member is not null && !member.Rules.LengthFits(count))
            Add(null, $"{Here} has {count} items.", ValueMessages.AcceptedCount(member, "items"));
    }

    private void Item(JsonShape collection, JsonMember? member)
    {
        if (_reader.TokenType != JsonTokenType.Null || member is not { ItemsMayBeNull: true })
            Value(collection.Item!, null);
    }

    /// <summary>A value nobody looks into: still no doubled names, and well formed.</summary>
    private void Anything()
    {
        if (_reader.TokenType == JsonTokenType.StartArray)
        {
            for (var i = 0; _reader.Read() && _reader.TokenType != JsonTokenType.EndArray; i++)
            {
                _path.Push(i.ToString(System.Globalization.CultureInfo.InvariantCulture));
                Anything();
                _path.Pop();
            }
        }
        else if (_reader.TokenType == JsonTokenType.StartObject)
        {
            var seen = new HashSet<string>(StringComparer.Ordinal);
            while (_reader.Read() && _reader.TokenType != JsonTokenType.EndObject)
            {
                Enter(seen);
                Anything();
                _path.Pop();
            }
        }
        else if (_reader.TokenType == JsonTokenType.String)
        {
            _ = Text();
        }
    }

    private void Scalar(JsonShape shape, JsonMember? member)
    {
        if (!ValueMessages.TokenFits(shape, _reader.TokenType))
        {
            WrongType(shape, member);
            return;
        }

        var text = _reader.TokenType == JsonTokenType.String ? Text() : null;
        if (_reader.TokenType == JsonTokenType.String && text is null)
            return;
        if (ValueMessages.WhatIsWrong(shape, member, Here, text, ref _reader, _json) is { } detail)
            Add(text ?? Excerpt(), detail, ValueMessages.Accepted(shape, member));
    }

    private void WrongType(JsonShape shape, JsonMember? member)
    {
        Add(Excerpt(), ValueMessages.WrongType(Here, _reader.TokenType, shape), ValueMessages.Accepted(shape, member));
        Anything();
    }

    /// <summary>Takes a member's name, goes to its value.</summary>
    private string Enter(HashSet<string> seen)
    {
        var name = Text() ?? JsonText.Clip(_reader.ValueSpan);
        var (line, column) = JsonText.Position(_json, (int)_reader.TokenStartIndex);
        _path.Push(name);
        if (!seen.Add(name))
            Add(null, $"{Here} appears a second time (line {line}, column {column}).", "each name once in an object");
        _reader.Read();
        return name;
    }

    private string? Text()
    {
        try
        {
            return _reader.GetString();
        }
        catch (InvalidOperationException)
        {
            Add(JsonText.Clip(_reader.ValueSpan), $"{Here} has an escape of half a surrogate pair.", "complete Unicode characters");
            return null;
        }
    }

    private readonly string Here => _path.Last is { } last ? JsonText.Clip(last) : "The body";

    /// <summary>The text of the value the reader stands on, to its end in the line of sight.</summary>
    private readonly string Excerpt() => JsonText.Clip(_json[(int)_reader.TokenStartIndex..ValueEnd()]);

    private readonly int ValueEnd()
    {
        if (_reader.TokenType is not (JsonTokenType.StartObject or JsonTokenType.StartArray))
            return (int)_reader.BytesConsumed;
        var ahead = _reader;
        try
        {
            return ahead.TrySkip() ? (int)ahead.BytesConsumed : _json.Length;
        }
        catch (JsonException)
        {
            return _json.Length;
        }
    }

    private readonly void Add(string? value, string detail, string? accepted) =>
        Add(new ProblemError(_path.Pointer, value is null ? null : JsonText.Clip(value), detail, accepted));

    private readonly void Add(ProblemError error)
    {
        if (_errors.Count < MaxErrors)
            _errors.Add(error);
    }
}
