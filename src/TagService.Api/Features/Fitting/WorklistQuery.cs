using System.Text.Json;
using Microsoft.AspNetCore.WebUtilities;
using TagService.Api.Http.Problems;
using TagService.Storage.Fitting;

namespace TagService.Api.Features.Fitting;

/// <summary>What a worklist is asked for.</summary>
/// <param name="Location">A place: id, name or alias of a location, or the register's words.</param>
/// <param name="Under">A location with all that lie in it: id, name or alias.</param>
/// <param name="TagClass">Only assets for which this class is recommended.</param>
/// <param name="After">Where the page begins.</param>
/// <param name="Limit">Most assets on it.</param>
/// <param name="Reserve">Whether to take identities for its items.</param>
internal sealed record WorklistQuery(string? Location, string? Under, string? TagClass, WorklistPosition? After, int Limit, bool Reserve)
{
    public const int DefaultLimit = 50;
    public const int MaxLimit = 200;

    /// <summary>The cursor of a position: opaque to callers.</summary>
    public static string Cursor(WorklistPosition position) =>
        WebEncoders.Base64UrlEncode(JsonSerializer.SerializeToUtf8Bytes(new[] { position.LocationName, position.AssetId }));

    /// <summary>The position of a cursor; false when it is none of ours.</summary>
    public static bool TryPosition(string cursor, out WorklistPosition position)
    {
        position = default;
        try
        {
            if (JsonSerializer.Deserialize<string?[]>(WebEncoders.Base64UrlDecode(cursor)) is not [var location, { } assetId])
                return false;
            position = new(location, assetId);
            return location?.Contains('\0', StringComparison.Ordinal) is not true && !assetId.Contains('\0', StringComparison.Ordinal);
        }
        catch (Exception e) when (e is FormatException or JsonException)
        {
            return false;
        }
    }

    /// <summary>A parameter that cannot be used.</summary>
    public static ApiProblem Refuse(string parameter, string value, string detail, string accepted) => new(
        ProblemTypes.InvalidRequest, $"The query parameter {parameter} cannot be used: {detail}",
        [new(parameter, value.Length > 80 ? value[..80] : value, detail, accepted)]);
}
