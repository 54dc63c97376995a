using System.Text.Json;
using Microsoft.EntityFrameworkCore.ChangeTracking;

namespace TagService.Storage;

/// <summary>Domain records in jsonb columns, by the rules of <see cref="AssetRecordJson"/>.</summary>
internal static class StoredJson
{
    public static string Write<T>(T value) => JsonSerializer.Serialize(value, AssetRecordJson.Options);

    public static T Read<T>(string json)
        where T : class =>
        JsonSerializer.Deserialize<T>(json, AssetRecordJson.Options) ?? throw new InvalidOperationException($"The stored {typeof(T).Name} is JSON null.");

    /// <summary>Records holding lists compare them by reference; what counts is what would be stored.</summary>
    public static ValueComparer<T> Comparer<T>()
        where T : class => new(
        (a, b) => ReferenceEquals(a, b) || (a != null && b != null && Write(a) == Write(b)), v => Write(v).GetHashCode(StringComparison.Ordinal), v => v);
}
