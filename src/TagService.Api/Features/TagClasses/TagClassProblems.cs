using System.Text.Json;
using System.Text.RegularExpressions;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.TagClasses;

namespace TagService.Api.Features.TagClasses;

/// <summary>What makes a readable tag class unusable.</summary>
internal static partial class TagClassProblems
{
    /// <summary>The problem to answer with, or null when the path names a class that may be written.</summary>
    public static ApiProblem? OfId(string id, TagClassRequest request)
    {
        if (TagClassCatalogue.BuiltIn.Find(id) is null && !OwnId().IsMatch(id))
        {
            return new(
                ProblemTypes.InvalidRequest,
                $"The id in the path is {JsonText.Clip(id)}; accepted: an id of /v1/tag-classes, or for an own class lower-case letters and digits in words joined by hyphens, at most 60 characters.");
        }

        return request.Id is { } sent && !sent.Equals(id, StringComparison.OrdinalIgnoreCase)
            ? ApiProblem.Contradictory("The id in the body is another than that in the path.", new ProblemError("#/id", JsonText.Clip(sent), "Not the id of the path.", id))
            : null;
    }

    /// <summary>Members an own class lacks.</summary>
    public static ApiProblem? OfMissing(TagClassRequest request)
    {
        (string Name, bool Missing)[] members =
        [
            ("name", request.Name is null), ("technology", request.Technology is null), ("size", request.Size is null), ("antenna", request.Antenna is null),
            ("limits", request.Limits is null), ("attachmentMethods", request.AttachmentMethods is null), ("memory", request.Memory is null),
            ("price", request.Price is null), ("applicationMinutes", request.ApplicationMinutes is null), ("life", request.Life is null),
        ];
        ProblemError[] missing = [.. members.Where(m => m.Missing).Select(m => new ProblemError($"#/{m.Name}", null, $"{m.Name} is missing.", "an own class is stated whole"))];
        return missing.Length == 0
            ? null
            : new(ProblemTypes.InvalidFields, $"No built-in class has this id, and an own class is stated whole: {string.Join(", ", missing.Select(m => m.Pointer[2..]))} missing.", missing);
    }

    /// <summary>Figures of a built-in class that the request would change, or nothing that it would lay over.</summary>
    public static ApiProblem? OfBuiltIn(TagClassRequest request, TagClass builtIn)
    {
        (string Name, object? Sent, object Known)[] members =
        [
            ("name", request.Name, builtIn.Name), ("description", request.Description, builtIn.Description), ("family", request.Family, builtIn.Family),
            ("technology", request.Technology, builtIn.Technology), ("size", request.Size, builtIn.Size), ("antenna", request.Antenna, builtIn.Antenna),
            ("limits", request.Limits, builtIn.Limits), ("attachmentMethods", request.AttachmentMethods, builtIn.AttachmentMethods),
            ("memory", request.Memory, builtIn.Memory), ("life", request.Life, builtIn.Life), ("cautions", request.Cautions, builtIn.Cautions),
        ];
        ProblemError[] changed =
        [
            .. members.Where(m => m.Sent is not null && Json(m.Sent) != Json(m.Known))
                .Select(m => new ProblemError($"#/{m.Name}", JsonText.Clip(Json(m.Sent!)), $"{m.Name} belongs to the construction of the built-in class {builtIn.Id}.", JsonText.Clip(Json(m.Known)))),
        ];
        if (changed.Length > 0)
        {
            return new(
                ProblemTypes.Conflict,
                $"The construction of the built-in class {builtIn.Id} does not change; price, certificate, applicationMinutes and notes can be laid over it. Put a class of another construction under an id of your own, for example {builtIn.Id}-own.",
                changed);
        }

        return request is { Price: null, Certificate: null, ApplicationMinutes: null, Notes: null }
            ? new(
                ProblemTypes.InvalidFields, $"Nothing is laid over the built-in class {builtIn.Id}; DELETE takes an overlay away.",
                [new("#", null, "No member to lay over.", "price, certificate, applicationMinutes, notes")])
            : null;
    }

    /// <summary>Names that no table has, and figures that contradict each other.</summary>
    public static ApiProblem? OfFaults(TagClassOverlay overlay)
    {
        var faults = TagClassCheck.Faults(overlay);
        if (faults.Count == 0)
            return null;
        // Unknown names first: they may be what makes the rest look wrong.
        var unknown = faults.Any(f => !f.Contradicts);
        ProblemError[] errors =
        [
            .. faults.Where(f => f.Contradicts != unknown).Take(50)
                .Select(f => new ProblemError($"#{f.Pointer}", f.Value is null ? null : JsonText.Clip(f.Value), f.Detail, f.Accepted)),
        ];
        return unknown
            ? new(ProblemTypes.InvalidFields, "A name in the class is in none of the tables.", errors)
            : ApiProblem.Contradictory(string.Join(" ", errors.Select(e => e.Detail)), errors);
    }

    private static string Json(object value) => JsonSerializer.Serialize(value, value.GetType(), WireJson.Options);

    [GeneratedRegex("^(?=.{1,60}\\z)[a-z0-9]+(-[a-z0-9]+)*\\z")]
    private static partial Regex OwnId();
}
