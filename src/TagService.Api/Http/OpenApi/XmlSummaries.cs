using System.Collections.Concurrent;
using System.Reflection;
using System.Xml.Linq;

namespace TagService.Api.Http.OpenApi;

/// <summary>Summaries of the XML comments beside our assemblies; needed for the values of enumerations, which the generator leaves out.</summary>
internal static class XmlSummaries
{
    private static readonly ConcurrentDictionary<Assembly, IReadOnlyDictionary<string, string>> Files = new();

    public static string? OfType(Type type) => Find(type, $"T:{type.FullName}");

    public static string? OfField(FieldInfo field) => Find(field.DeclaringType!, $"F:{field.DeclaringType!.FullName}.{field.Name}");

    private static string? Find(Type type, string id) => Files.GetOrAdd(type.Assembly, Read).GetValueOrDefault(id.Replace('+', '.'));

    private static IReadOnlyDictionary<string, string> Read(Assembly assembly)
    {
        var path = Path.ChangeExtension(assembly.Location, ".xml");
        return !File.Exists(path)
            ? new Dictionary<string, string>()
            : XDocument.Load(path).Descendants("member")
                .Where(m => m.Element("summary") is not null)
                .ToDictionary(m => m.Attribute("name")!.Value, m => Text(m.Element("summary")!), StringComparer.Ordinal);
    }

    private static string Text(XElement summary) =>
        string.Join(' ', summary.Value.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
