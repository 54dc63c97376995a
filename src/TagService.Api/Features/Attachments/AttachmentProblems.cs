using System.Globalization;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Attachments;

namespace TagService.Api.Features.Attachments;

/// <summary>From refusals of the domain to problem details.</summary>
internal static class AttachmentProblems
{
    private const string Nested = "endPrevious";

    /// <summary>The problem of one refusal.</summary>
    /// <param name="refusal">The refusal.</param>
    /// <param name="nested">The request has endPrevious as an object, where batches have plain members.</param>
    public static ApiProblem ToProblem(this AttachmentRefusal refusal, bool nested = true)
    {
        var error = new ProblemError(
            nested ? Pointer(refusal.Field) : $"#/{refusal.Field}", refusal.Value is null ? null : JsonText.Clip(refusal.Value), refusal.Detail, refusal.Accepted);
        return refusal switch
        {
            AttachmentRefusal.Contradictory => ApiProblem.Contradictory(refusal.Detail, error),
            AttachmentRefusal.UnknownName => new(ProblemTypes.InvalidFields, refusal.Detail, [error]),
            _ => new(ProblemTypes.Conflict, $"{refusal.Detail} Accepted: {refusal.Accepted}.", [error]),
        };
    }

    /// <summary>Pointers of plain members put where the object has them.</summary>
    public static ApiProblem Nest(this ApiProblem problem) =>
        problem with { Errors = problem.Errors is { } errors ? [.. errors.Select(e => e with { Pointer = Pointer(e.Pointer[2..]) })] : null };

    /// <summary>No such asset, in words that tell the way out.</summary>
    public static ApiProblem NoSuchAsset(string way) => ApiProblem.NotFound($"No asset has this id; /v1/assets lists them all. {way}".TrimEnd());

    /// <summary>No such attachment.</summary>
    public static ApiProblem NoSuchAttachment() => ApiProblem.NotFound("No attachment has this id; /v1/assets/{assetId}/attachments lists those of an asset.");

    private static string Pointer(string field) => field.StartsWith(Nested, StringComparison.Ordinal) && field.Length > Nested.Length
        ? string.Create(CultureInfo.InvariantCulture, $"#/{Nested}/{char.ToLowerInvariant(field[Nested.Length])}{field[(Nested.Length + 1)..]}")
        : $"#/{field}";
}
