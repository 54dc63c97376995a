using System.Text;

namespace TagService.Api.Http.Json;

/// <summary>Where in a body somebody is.</summary>
internal sealed class JsonPath
{
    private readonly List<string> _segments = [];

    public string Pointer => PointerOf(_segments);

    public string? Last => _segments.Count == 0 ? null : _segments[^1];

    public void Push(string segment) => _segments.Add(segment);

    public void Pop() => _segments.RemoveAt(_segments.Count - 1);

    /// <summary>JSON pointer (RFC 6901) as a URI fragment (section 6), each segment cut to what a reader needs.</summary>
    private static string PointerOf(List<string> segments)
    {
        var text = new StringBuilder("#");
        foreach (var segment in segments)
            text.Append('/').Append(Uri.EscapeDataString(JsonText.Clip(segment).Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal)));
        return text.ToString();
    }
}
