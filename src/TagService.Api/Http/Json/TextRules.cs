using System.Globalization;
using System.Text.RegularExpressions;
using TagService.Api.Http.Problems;

namespace TagService.Api.Http.Json;

/// <summary>Rules of texts that an attribute on a member cannot state, or that many members share.</summary>
internal static class TextRules
{
    /// <summary>One line without control characters that neither begins nor ends with a blank.</summary>
    public const string OneLine = "[^\\s\\p{Cc}]([^\\p{Cc}]*[^\\s\\p{Cc}])?";

    private static readonly Regex WholeLine = new($"^(?:{OneLine})\\z", RegexOptions.CultureInvariant | RegexOptions.NonBacktracking);

    /// <summary>Items of a list of texts that are too long, empty or more than one line.</summary>
    /// <param name="member">Name of the list.</param>
    /// <param name="items">Its items.</param>
    /// <param name="maxLength">Most characters of one.</param>
    public static ApiProblem? OfItems(string member, IReadOnlyList<string> items, int maxLength)
    {
        ProblemError[] wrong =
        [
            .. items.Index().Where(i => i.Item.Length > maxLength || !WholeLine.IsMatch(i.Item)).Select(i => new ProblemError(
                Pointer(member, i.Index), JsonText.Clip(i.Item),
                i.Item.Length > maxLength ? string.Create(CultureInfo.InvariantCulture, $"It has {i.Item.Length} characters.") : "It is empty, more than one line, or begins or ends with a blank.",
                string.Create(CultureInfo.InvariantCulture, $"one line of 1 to {maxLength} characters"))),
        ];
        return wrong.Length == 0 ? null : new(ProblemTypes.InvalidFields, $"{member} holds a text that cannot be used.", wrong);
    }

    /// <summary>Two items of a list that mean the same.</summary>
    public static ApiProblem? OfRepeats(string member, IReadOnlyList<string> items, Func<string, string> fold)
    {
        var first = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var i = 0; i < items.Count; i++)
        {
            if (!first.TryAdd(fold(items[i]), i))
            {
                var before = first[fold(items[i])];
                return ApiProblem.Contradictory(
                    $"{member} holds the same twice, if written differently.",
                    new ProblemError(Pointer(member, before), JsonText.Clip(items[before]), "The first of the two.", "each once"),
                    new ProblemError(Pointer(member, i), JsonText.Clip(items[i]), "The second of the two.", "each once"));
            }
        }

        return null;
    }

    /// <summary>JSON pointer of one item.</summary>
    public static string Pointer(string member, int index) => string.Create(CultureInfo.InvariantCulture, $"#/{member}/{index}");
}
