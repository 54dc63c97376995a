using System.Text.Json;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace TagService.Storage;

/// <summary>Values of enumerations in text columns, under the names the interface uses.</summary>
internal sealed class KebabText<TEnum>() : ValueConverter<TEnum, string>(value => Texts[value], text => Values[text])
    where TEnum : struct, Enum
{
    private static readonly Dictionary<TEnum, string> Texts =
        Enum.GetValues<TEnum>().ToDictionary(v => v, v => JsonNamingPolicy.KebabCaseLower.ConvertName(v.ToString()));

    private static readonly Dictionary<string, TEnum> Values = Texts.ToDictionary(t => t.Value, t => t.Key, StringComparer.Ordinal);

    /// <summary>All texts for a check constraint: <c>'a', 'b'</c>.</summary>
    public static string SqlList { get; } = string.Join(", ", Texts.Values.Select(t => $"'{t}'"));
}
