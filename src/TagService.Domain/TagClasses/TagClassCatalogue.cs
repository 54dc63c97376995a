using System.Security.Cryptography;
using System.Text.Json;
using TagService.Domain.Reference;

namespace TagService.Domain.TagClasses;

/// <summary>The built-in tag classes: generic constructions with planning values.</summary>
public static class TagClassCatalogue
{
    /// <summary>All built-in classes, in file order and by id.</summary>
    public static ReferenceTable<TagClass> BuiltIn { get; } = new("tag-classes.data.json", c => c.Id);

    /// <summary>Version of the built-in data: changes when any value changes, and only then.</summary>
    public static string Version { get; } = VersionOf(BuiltIn.All);

    /// <summary>
    /// Version of a catalogue: the first 12 hexadecimal digits of the SHA-256 of its rows in order of their ids,
    /// written as canonical JSON, so that spacing and order in a file do not matter.
    /// </summary>
    /// <param name="classes">The classes, in any order.</param>
    public static string VersionOf(IEnumerable<TagClass> classes)
    {
        var rows = classes.OrderBy(c => c.Id, StringComparer.Ordinal).ToArray();
        var json = JsonSerializer.SerializeToUtf8Bytes(rows, ReferenceData.Options);
        return Convert.ToHexStringLower(SHA256.HashData(json))[..12];
    }
}
