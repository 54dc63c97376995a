using TagService.Api.Http.Problems;
using TagService.Domain.Recommendations;

namespace TagService.Api.Features.Recommendations;

/// <summary>The query parameter <c>include</c>.</summary>
internal static class IncludeOption
{
    /// <summary>Of a single record: questions are worked out unless left out.</summary>
    public static ApiProblem? Parse(string? include, out RecommendationOptions options) =>
        Parse(include, new(IncludeAll: false, IncludeQuestions: true), "no-questions", out options);

    /// <summary>Of a batch: questions are worked out only if asked for.</summary>
    public static ApiProblem? ParseBatch(string? include, out RecommendationOptions options) =>
        Parse(include, new(IncludeAll: false, IncludeQuestions: false), "questions", out options);

    private static ApiProblem? Parse(
        string? include, RecommendationOptions usual, string questionWord, out RecommendationOptions options)
    {
        options = usual;
        foreach (var word in (include ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (word == "all")
                options = options with { IncludeAll = true };
            else if (word == questionWord)
                options = options with { IncludeQuestions = !usual.IncludeQuestions };
            else
                return new(
                    ProblemTypes.InvalidRequest,
                    "The query parameter include has a word that is not known.",
                    [new("include", word.Length > 80 ? word[..80] : word, "Not a known word of include.", $"all, {questionWord}, or both separated by a comma")]);
        }

        return null;
    }
}
