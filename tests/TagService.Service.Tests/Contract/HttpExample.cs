using System.Text;
using System.Text.RegularExpressions;

namespace TagService.Service.Tests.Contract;

/// <summary>One request of an .http file (the plain format that editors run): method, path, headers, body and the expected answer.</summary>
/// <param name="Name">File and title.</param>
/// <param name="Method">HTTP method.</param>
/// <param name="Path">Path and query; the host variable is taken off.</param>
/// <param name="Headers">Headers as written.</param>
/// <param name="Body">Body, null when there is none.</param>
/// <param name="Status">Expected status, from the comment "# expect 200".</param>
/// <param name="Problem">Expected problem type, from "# expect 400 invalid-fields".</param>
public sealed partial record HttpExample(
    string Name, string Method, string Path, IReadOnlyList<(string Name, string Value)> Headers, string? Body, int Status, string? Problem)
{
    /// <summary>File it stands in, without extension.</summary>
    public string File => Name[..Name.IndexOf(':', StringComparison.Ordinal)];

    /// <summary>All examples of api/examples.</summary>
    public static IReadOnlyList<HttpExample> All { get; } =
        [.. Directory.EnumerateFiles(System.IO.Path.Combine(Repository.Root, "api", "examples"), "*.http").Order(StringComparer.Ordinal).SelectMany(Read)];

    private static IEnumerable<HttpExample> Read(string file)
    {
        var blocks = Separator().Split(System.IO.File.ReadAllText(file).ReplaceLineEndings("\n"));
        foreach (var block in blocks.Where(b => RequestLine().IsMatch(b)))
            yield return Parse(System.IO.Path.GetFileNameWithoutExtension(file), block);
    }

    private static HttpExample Parse(string file, string block)
    {
        var title = block.Split('\n')[0].Trim();
        var expect = Expect().Match(block);
        if (!expect.Success)
            throw new FormatException($"{file}, {title}: no line \"# expect STATUS\".");
        var request = RequestLine().Match(block);
        var rest = block[(request.Index + request.Length)..].TrimStart('\n').Split("\n\n", 2);
        // Headers follow the request line directly; a blank line begins the body.
        var directly = block[(request.Index + request.Length)..].StartsWith("\n\n", StringComparison.Ordinal);
        var headers = directly ? [] : rest[0].Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(h => h.Split(':', 2)).Select(h => (h[0].Trim(), h[1].Trim())).ToArray();
        var body = directly ? string.Join("\n\n", rest) : rest.ElementAtOrDefault(1);
        return new(
            $"{file}: {title}", request.Groups["method"].Value, request.Groups["path"].Value, headers,
            string.IsNullOrWhiteSpace(body) ? null : body.TrimEnd('\n'), int.Parse(expect.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture),
            expect.Groups[2].Success ? expect.Groups[2].Value : null);
    }

    /// <summary>The request to send.</summary>
    public HttpRequestMessage ToMessage()
    {
        var message = new HttpRequestMessage(new HttpMethod(Method), Path);
        if (Body is not null)
        {
            message.Content = new ByteArrayContent(Encoding.UTF8.GetBytes(Body));
        }

        foreach (var (name, value) in Headers)
        {
            if (!message.Headers.TryAddWithoutValidation(name, value))
                message.Content!.Headers.TryAddWithoutValidation(name, value);
        }

        return message;
    }

    [GeneratedRegex("^###", RegexOptions.Multiline)]
    private static partial Regex Separator();

    [GeneratedRegex("^# expect (\\d{3})(?: ([a-z-]+))?$", RegexOptions.Multiline)]
    private static partial Regex Expect();

    [GeneratedRegex("^(?<method>GET|POST|PUT|PATCH|DELETE) \\{\\{host\\}\\}(?<path>\\S+)$", RegexOptions.Multiline)]
    private static partial Regex RequestLine();
}
