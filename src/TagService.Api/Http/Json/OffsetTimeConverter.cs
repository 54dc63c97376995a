using System.Text.Json;
using System.Text.Json.Serialization;

namespace TagService.Api.Http.Json;

/// <summary>Times of RFC 3339: date, time and offset. The serializer alone would guess a missing offset from the machine it runs on.</summary>
internal sealed class OffsetTimeConverter : JsonConverter<DateTimeOffset>
{
    public override DateTimeOffset Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        if (reader.TokenType != JsonTokenType.String || !reader.TryGetDateTimeOffset(out var time) || !HasOffset(reader.ValueSpan))
            throw new JsonException("Not a time with offset.");
        return time;
    }

    public override void Write(Utf8JsonWriter writer, DateTimeOffset value, JsonSerializerOptions options) => writer.WriteStringValue(value);

    // After the seconds: Z, or a sign with hours and minutes. Shorter texts are dates or times without a zone.
    private static bool HasOffset(ReadOnlySpan<byte> text) =>
        text.Length >= "2026-11-05T14:30:00Z".Length && (text[^1] is (byte)'Z' or (byte)'z' || text[^6] is (byte)'+' or (byte)'-');
}
