using System.Collections.Concurrent;
using System.Reflection;
using System.Xml.Linq;

namespace TagService.Api.Http.OpenApi;

/// <summary>
/// What the generator leaves out of the XML comments beside our assemblies: values of enumerations, and parameters of handlers
/// that are not public.
/// </summary>
internal static class XmlComments
{
    private static readonly ConcurrentDictionary<Assembly, IReadOnlyDictionary<string, XElement>> Files = new();

    public static string? OfType(Type type) => Summary(type, $"T:{type.FullName}");

    public static string? OfField(FieldInfo field) => Summary(field.DeclaringType!, $"F:{field.DeclaringType!.FullName}.{field.Name}");

    public static string? OfParameter(MethodInfo method, string parameter)
    {
        // Handlers are not overloaded: the name is enough.
        var start = $"M:{method.DeclaringType!.FullName}.{method.Name}(";
        var member = Members(method.DeclaringType!).FirstOrDefault(m => m.Key.StartsWith(start, StringComparison.Ordinal)).Value;
        return member?.Elements("param").FirstOrDefault(p => (string?)p.Attribute("name") == parameter) is { } found ? Text(found) : null;
    }

    private static string? Summary(Type type, string id) =>
        Members(type).GetValueOrDefault(id.Replace('+', '.'))?.Element("summary") is { } summary ? Text(summary) : null;

    private static IReadOnlyDictionary<string, XElement> Members(Type type) => Files.GetOrAdd(type.Assembly, Read);

    private static IReadOnlyDictionary<string, XElement> Read(Assembly assembly)
    {
        var path = Path.ChangeExtension(assembly.Location, ".xml");
        return File.Exists(path)
            ? XDocument.Load(path).Descendants("member").ToDictionary(m => m.Attribute("name")!.Value, StringComparer.Ordinal)
            : new Dictionary<string, XElement>();
    }

    private static string Text(XElement element) =>
        string.Join(' ', element.Value.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
