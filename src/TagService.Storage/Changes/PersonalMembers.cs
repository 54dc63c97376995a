using System.Collections.Frozen;

namespace TagService.Storage.Changes;

/// <summary>
/// Members of audited items that point to a person. They are kept in the trail, since who did what is what it is for, but whoever
/// shows the trail shows only that they are there and that they changed.
/// </summary>
public static class PersonalMembers
{
    private static readonly FrozenDictionary<string, FrozenSet<string>> ByKind = new Dictionary<string, FrozenSet<string>>
    {
        [AuditKinds.Attachment] = new[] { "fitterId" }.ToFrozenSet(StringComparer.Ordinal),
    }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Names of those of a kind; empty for most kinds.</summary>
    /// <param name="kind">One of <see cref="AuditKinds"/>.</param>
    public static IReadOnlySet<string> Of(string kind) => ByKind.TryGetValue(kind, out var names) ? names : FrozenSet<string>.Empty;
}
