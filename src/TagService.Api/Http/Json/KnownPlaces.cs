using System.Collections.Frozen;

namespace TagService.Api.Http.Json;

/// <summary>Where the members of nested objects stand, so that a known name in the wrong place can be told its right one.</summary>
internal static class KnownPlaces
{
    private const int MaxDepth = 6;

    /// <summary>Names below the members of <paramref name="root"/> with their pointers; where a name occurs often, the shallowest.</summary>
    public static FrozenDictionary<string, string> Below(JsonShape root)
    {
        var places = new Dictionary<string, string>(StringComparer.Ordinal);
        var queue = new Queue<(JsonShape Shape, string Pointer, int Depth)>();
        queue.Enqueue((root, "", 0));
        while (queue.TryDequeue(out var at))
        {
            foreach (var member in at.Shape.Members.Values.OrderBy(m => m.Name, StringComparer.Ordinal))
            {
                var pointer = $"{at.Pointer}/{member.Name}";
                if (at.Depth > 0)
                    places.TryAdd(member.Name, pointer);
                var (nested, suffix) = member.Shape.Kind == ShapeKind.List ? (member.Shape.Item!, "/0") : (member.Shape, "");
                if (nested.Kind == ShapeKind.Object && at.Depth < MaxDepth)
                    queue.Enqueue((nested, pointer + suffix, at.Depth + 1));
            }
        }

        return places.Where(p => !root.Members.ContainsKey(p.Key)).ToFrozenDictionary(StringComparer.Ordinal);
    }
}
