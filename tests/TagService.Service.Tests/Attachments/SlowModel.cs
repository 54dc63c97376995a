using System.Text.Json.Nodes;
using static TagService.Service.Tests.Attachments.AttachmentClient;

namespace TagService.Service.Tests.Attachments;

/// <summary>Two days between which something happened; null: not known.</summary>
internal sealed record Bounds(int? From, int? To)
{
    public static Bounds Unknown { get; } = new(null, null);

    /// <summary>The members that say so.</summary>
    public IEnumerable<(string Member, string? Value)> Members(string name) => From is { } day && From == To
        ? [($"{name}At", Day(day)), ($"{name}NotBefore", null), ($"{name}NotAfter", null)]
        : [($"{name}At", null), ($"{name}NotBefore", From is { } f ? Day(f) : null), ($"{name}NotAfter", To is { } t ? Day(t) : null)];
}

/// <summary>One attachment as the model has it.</summary>
internal sealed record Entry(string Key, string Tag, string Asset, Bounds Start, Bounds? End, string? Reason)
{
    public bool Counts => Reason != "never-happened";

    /// <summary>Members whose values must be the same in the service.</summary>
    public string Text => new JsonObject(
        Start.Members("start").Concat((End ?? Bounds.Unknown).Members("end")).Append(("endReason", Reason)).Append(("assetId", Asset))
            .Where(m => m.Item2 is not null).OrderBy(m => m.Item1, StringComparer.Ordinal)
            .Select(m => KeyValuePair.Create(m.Item1, (JsonNode?)m.Item2))).ToJsonString();
}

/// <summary>
/// Attachments of a few tags the slow, obvious way: a set of entries of one tag is possible if in some order of them each can be
/// placed, as early as it may be, behind the one before. Every order is tried.
/// </summary>
internal sealed class SlowModel
{
    // Later than every day that is entered, and when everything was recorded.
    private const int Recorded = 1000;
    private const int Never = 2000;
    private readonly Dictionary<string, Entry> _entries = [];

    public IEnumerable<Entry> All => _entries.Values;

    public Entry? Find(string key) => _entries.GetValueOrDefault(key);

    /// <summary>Records entries together, or none of them.</summary>
    public bool TryRecord(params Entry[] entries)
    {
        var after = entries.Aggregate(_entries.ToDictionary(), (all, e) =>
        {
            all[e.Key] = e;
            return all;
        });
        if (!entries.All(MakesSense) || !entries.All(e => IsPossible([.. after.Values.Where(o => o.Tag == e.Tag && o.Counts)])))
            return false;
        foreach (var entry in entries)
            _entries[entry.Key] = entry;
        return true;
    }

    private static bool MakesSense(Entry e) => !(e.End?.To < e.Start.From);

    private static bool IsPossible(Entry[] left, int from = 0) => left.Length == 0 || left.Any(next =>
        EarliestEnd(next, from) is { } end && IsPossible([.. left.Where(e => e != next)], end));

    // Null: it cannot begin as late as that, or it has ended before.
    private static int? EarliestEnd(Entry e, int from)
    {
        var start = Math.Max(from, e.Start.From ?? 0);
        if (start > (e.Start.To ?? (e.Reason is null ? Recorded : Never - 1)))
            return null;
        if (e.Reason is null)
            return Never;
        var end = Math.Max(start, e.End?.From ?? 0);
        return end > (e.End?.To ?? Never - 1) ? null : end;
    }
}
