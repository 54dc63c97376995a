using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Http;

namespace TagService.Api.Http.Problems;

/// <summary>A query or route parameter that does not read as its type.</summary>
internal static partial class ParameterProblem
{
    private const int ClipAt = 80;

    /// <summary>
    /// The problem, or null when the request was bad in another way. The framework tells parameter and value only in its
    /// message; a test fails should its wording change.
    /// </summary>
    public static ApiProblem? Of(BadHttpRequestException exception)
    {
        var match = Binding().Match(exception.Message);
        if (!match.Success)
            return null;
        var (type, name, value) = (match.Groups["type"].Value, match.Groups["name"].Value, match.Groups["value"].Value);
        var accepted = Accepted(type);
        return new(
            ProblemTypes.InvalidRequest,
            $"The parameter {name} does not read as {accepted}.",
            [new(name, value.Length > ClipAt ? value[..ClipAt] : value, $"Not {accepted}.", accepted)]);
    }

    private static string Accepted(string type) => type.Replace("Nullable<", "", StringComparison.Ordinal).TrimEnd('>') switch
    {
        "int" or "long" => "a whole number",
        "double" or "decimal" => "a number",
        "bool" => "true or false",
        "DateTimeOffset" => "an RFC 3339 time with offset",
        var other => other,
    };

    [GeneratedRegex("^Failed to bind parameter \"(?<type>.+) (?<name>[^ \"]+)\" from \"(?<value>.*)\"\\.$", RegexOptions.Singleline)]
    private static partial Regex Binding();
}
