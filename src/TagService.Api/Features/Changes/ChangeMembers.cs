using System.Text.Json;
using TagService.Api.Http.Json;
using TagService.Storage.Changes;

namespace TagService.Api.Features.Changes;

/// <summary>Items of the trail as everybody may see them: what points to a person says that it is there and whether it changed, not what it is.</summary>
internal static class ChangeMembers
{
    private static readonly JsonElement Hidden = JsonSerializer.SerializeToElement("(not shown)");
    private static readonly JsonElement HiddenOther = JsonSerializer.SerializeToElement("(not shown, another one)");

    /// <summary>The item before and after.</summary>
    public static (IReadOnlyDictionary<string, JsonElement>? Before, IReadOnlyDictionary<string, JsonElement>? After) Of(ChangeRow row)
    {
        var (before, after) = (Members(row.Before), Members(row.After));
        foreach (var name in PersonalMembers.Of(row.Kind))
        {
            var was = default(JsonElement);
            var hadOne = before is not null && before.Remove(name, out was);
            if (hadOne)
                before![name] = Hidden;
            if (after is not null && after.TryGetValue(name, out var now))
                after[name] = hadOne && !JsonElement.DeepEquals(was, now) ? HiddenOther : Hidden;
        }

        return (before, after);
    }

    private static Dictionary<string, JsonElement>? Members(string? json) =>
        json is null ? null : JsonSerializer.Deserialize<Dictionary<string, JsonElement>>(json, WireJson.Options);
}
