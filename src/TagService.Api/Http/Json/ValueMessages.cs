using System.Globalization;
using System.Text.Json;

namespace TagService.Api.Http.Json;

/// <summary>Words for values that are JSON but not what a member takes.</summary>
internal static class ValueMessages
{
    public static bool TokenFits(JsonShape shape, JsonTokenType token) => shape.Kind switch
    {
        ShapeKind.Number or ShapeKind.WholeNumber => token == JsonTokenType.Number,
        ShapeKind.Text or ShapeKind.Choice => token == JsonTokenType.String,
        ShapeKind.Boolean => token is JsonTokenType.True or JsonTokenType.False,
        ShapeKind.Converted => token is JsonTokenType.String or JsonTokenType.Number,
        _ => false,
    };

    public static string WrongType(string here, JsonTokenType token, JsonShape shape)
    {
        var hint = (shape.Kind, token) switch
        {
            (ShapeKind.Number or ShapeKind.WholeNumber, JsonTokenType.String) => "; write numbers without quotes",
            (ShapeKind.Boolean, JsonTokenType.String or JsonTokenType.Number) => "; write true or false without quotes",
            _ => "",
        };
        return $"{here} is {Name(token)} where {Name(shape)} belongs{hint}.";
    }

    public static string Unknown(string name, string? place) => place is null
        ? $"{JsonText.Clip(name)} is not a known name here."
        : $"{JsonText.Clip(name)} stands in the wrong place; it belongs at {place}.";

    public static string AcceptedNames(JsonShape shape, string name, string? place)
    {
        if (place is not null)
            return place;
        if (NearestName.Of(name, shape.Members.Keys.Order(StringComparer.Ordinal)) is { } near)
            return $"perhaps {near}";
        return string.Join(", ", shape.Members.Keys.Order(StringComparer.Ordinal));
    }

    public static string AcceptedCount(JsonMember member, string what) => member.Rules switch
    {
        { MaxLength: int.MaxValue } => $"at least {member.Rules.MinLength} {what}",
        { MinLength: 0 } => $"at most {member.Rules.MaxLength} {what}",
        _ => $"{member.Rules.MinLength} to {member.Rules.MaxLength} {what}",
    };

    /// <summary>What a member takes, in words.</summary>
    public static string Accepted(JsonShape shape, JsonMember? member)
    {
        var rules = member?.Rules ?? MemberRules.None;
        switch (shape.Kind)
        {
            case ShapeKind.Number or ShapeKind.WholeNumber:
                var unit = member is not null && UnitSuffix.Of(member.Name) is { } u ? $" {u}" : "";
                var whole = shape.Kind == ShapeKind.WholeNumber ? "a whole number" : "a number";
                return rules.HasRange ? $"{whole} from {Text(rules.Min)} to {Text(rules.Max)}{unit}" : whole + unit;
            case ShapeKind.Choice:
                return string.Join(", ", shape.Choices);
            case ShapeKind.Text when rules.Texts is { } texts:
                return string.Join(", ", texts);
            case ShapeKind.Text when rules.Pattern is { } pattern:
                return $"text matching {pattern}";
            case ShapeKind.Text when rules.MaxLength < int.MaxValue:
                return $"text of at most {rules.MaxLength} characters";
            case ShapeKind.Object:
                return "an object with " + string.Join(", ", shape.Members.Keys.Order(StringComparer.Ordinal));
            default:
                return Name(shape);
        }
    }

    /// <summary>What is wrong with a value of the right JSON type, or null.</summary>
    public static string? WhatIsWrong(
        JsonShape shape, JsonMember? member, string here, string? text, ref Utf8JsonReader reader, ReadOnlySpan<byte> json)
    {
        var rules = member?.Rules ?? MemberRules.None;
        switch (shape.Kind)
        {
            case ShapeKind.Number:
                _ = reader.TryGetDouble(out var number);
                return !double.IsFinite(number) ? $"{here} is too large for a number."
                    : rules.NumberFits(number) ? null : $"{here} is {(number < rules.Min ? "below" : "above")} its range.";
            case ShapeKind.WholeNumber:
                if (!reader.TryGetInt64(out var whole) || !Reads(shape, reader.ValueSpan))
                    return $"{here} is not a whole number written without fraction or exponent, or it is too large.";
                return rules.NumberFits(whole) ? null : $"{here} is {(whole < rules.Min ? "below" : "above")} its range.";
            case ShapeKind.Choice:
                var near = NearestName.Of(text!, shape.Choices);
                return shape.Choices.Contains(text, StringComparer.OrdinalIgnoreCase) ? null
                    : $"{here} is none of its values{(near is null ? "" : $"; perhaps {near}")}.";
            case ShapeKind.Text:
                return rules.LengthFits(text!.Length)
                    ? rules.TextFits(text) ? null : $"{here} is none of its values."
                    : string.Create(CultureInfo.InvariantCulture, $"{here} has {text.Length} characters.");
            case ShapeKind.Converted:
                var value = json[(int)reader.TokenStartIndex..(int)reader.BytesConsumed];
                return Reads(shape, value) ? null : $"{here} does not read as {Name(shape)}.";
            default:
                return null;
        }
    }

    private static bool Reads(JsonShape shape, ReadOnlySpan<byte> value)
    {
        try
        {
            return JsonSerializer.Deserialize(value, shape.Info) is not null;
        }
        catch (JsonException)
        {
            return false;
        }
    }

    private static string Text(double bound) => bound.ToString("R", CultureInfo.InvariantCulture);

    private static string Name(JsonTokenType token) => token switch
    {
        JsonTokenType.StartObject => "an object",
        JsonTokenType.StartArray => "an array",
        JsonTokenType.String => "text",
        JsonTokenType.Number => "a number",
        _ => "true or false",
    };

    private static string Name(JsonShape shape) => shape.Kind switch
    {
        ShapeKind.Object or ShapeKind.Map => "an object",
        ShapeKind.List => "an array",
        ShapeKind.Number => "a number",
        ShapeKind.WholeNumber => "a whole number",
        ShapeKind.Boolean => "true or false",
        ShapeKind.Choice or ShapeKind.Text => "text",
        _ when shape.Type == typeof(DateTimeOffset) => "a time with offset (RFC 3339), for example 2026-11-05T14:30:00Z",
        _ when shape.Type == typeof(DateOnly) => "a date, for example 2026-11-05",
        _ => $"a {shape.Type.Name}",
    };
}
