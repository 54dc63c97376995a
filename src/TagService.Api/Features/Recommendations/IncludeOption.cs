using TagService.Api.Http.Problems;
using TagService.Domain.Recommendations;

namespace TagService.Api.Features.Recommendations;

/// <summary>The query parameter <c>include</c>.</summary>
internal static class IncludeOption
{
    private const string Accepted = "all, no-questions, or both separated by a comma";

    /// <summary>Reads it; returns the problem when a word is unknown.</summary>
    public static ApiProblem? Parse(string? include, out RecommendationOptions options)
    {
        options = new(IncludeAll: false, IncludeQuestions: true);
        foreach (var word in (include ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            switch (word)
            {
                case "all":
                    options = options with { IncludeAll = true };
                    break;
                case "no-questions":
                    options = options with { IncludeQuestions = false };
                    break;
                default:
                    return new(
                        ProblemTypes.InvalidRequest,
                        "The query parameter include has a word that is not known.",
                        [new("include", word.Length > 80 ? word[..80] : word, "Not a known word of include.", Accepted)]);
            }
        }

        return null;
    }
}
