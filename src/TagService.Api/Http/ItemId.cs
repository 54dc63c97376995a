using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Words;

namespace TagService.Api.Http;

/// <summary>Ids that callers give to their own items, as they stand in a path.</summary>
internal static class ItemId
{
    /// <summary>Most characters of an id.</summary>
    public const int MaxLength = 100;

    /// <summary>What an id may be, for messages and descriptions.</summary>
    public const string Accepted = "1 to 100 characters without control characters, not beginning or ending with a blank, not \".\" or \"..\"; a slash is written %2F";

    /// <summary>The id in a path segment. The server decodes every other escape but leaves %2F as it is.</summary>
    public static string Of(string segment) => segment.Replace("%2F", "/", StringComparison.OrdinalIgnoreCase);

    /// <summary>Can an item have this id?</summary>
    /// <param name="id">The id from the path.</param>
    /// <param name="repeated">The id repeated in the body, if sent.</param>
    /// <param name="problem">What to answer otherwise.</param>
    public static bool IsUsable(string id, string? repeated, [NotNullWhen(false)] out ApiProblem? problem)
    {
        problem = !IsSound(id)
            ? new(ProblemTypes.InvalidRequest, $"The id in the path is {JsonText.Clip(id)}; accepted: {Accepted}.")
            : repeated is not null && repeated != id
                ? ApiProblem.Contradictory("The id in the body is another than that in the path.", new ProblemError("#/id", JsonText.Clip(repeated), "Not the id of the path.", JsonText.Clip(id)))
                : null;
        return problem is null;
    }

    private static bool IsSound(string id) =>
        id.Length is >= 1 and <= MaxLength && ResourceId.FaultOf(id) is null && !char.IsWhiteSpace(id[0]) && !char.IsWhiteSpace(id[^1]);

    /// <summary>A query parameter that is compared with stored texts: length and characters, or the problem.</summary>
    public static ApiProblem? Refusal(string parameter, string? value, int maxLength) => value switch
    {
        null => null,
        { Length: var length } when length > maxLength => new(
            ProblemTypes.InvalidRequest, string.Create(CultureInfo.InvariantCulture, $"{parameter} has {length} characters; accepted: at most {maxLength}.")),
        _ when value.Any(char.IsControl) => new(ProblemTypes.InvalidRequest, $"{parameter} holds a control character; accepted: text without them."),
        _ => null,
    };
}
