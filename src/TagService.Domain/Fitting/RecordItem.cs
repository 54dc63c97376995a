using TagService.Domain.Reference;

namespace TagService.Domain.Fitting;

/// <summary>Something a fitter records once the tag is on.</summary>
/// <param name="Id">Stable kebab-case id.</param>
/// <param name="Name">What it is.</param>
/// <param name="How">How to get it, in the imperative.</param>
/// <param name="Why">What it is good for later.</param>
/// <param name="Required">Is a pair worthless without it?</param>
/// <param name="Field">Names of the fields in POST /v1/assets/{assetId}/attachments.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record RecordItem(string Id, string Name, string How, string Why, bool Required, string Field, string Source);

/// <summary>What to record after fitting.</summary>
public static class RecordItems
{
    /// <summary>The table, in the order in which a fitter writes it down.</summary>
    public static ReferenceTable<RecordItem> Table { get; } = new("record-items.data.json", r => r.Id);

    /// <summary>All rows in file order.</summary>
    public static IReadOnlyList<RecordItem> All => Table.All;
}
