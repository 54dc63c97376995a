using TagService.Domain.Profiles;
using TagService.Domain.Registers;
using TagService.Storage.Bulk;
using TagService.Storage.Registers;

namespace TagService.Worker.Registers;

/// <summary>Lays what a row says over what is stored.</summary>
internal static class RowOverlay
{
    /// <summary>The asset as it should be: fields that the row does not give stay.</summary>
    /// <param name="stored">The asset as the mirror has it; null: it is new.</param>
    /// <param name="row">What the row says.</param>
    /// <param name="sourceName">Name of the source.</param>
    public static AssetToLoad Of(StoredListing? stored, MappedAsset row, string sourceName)
    {
        var before = stored?.Content;
        return new(row.ApplyTo(before?.Record) with { AssetId = row.AssetId }, row.GivesLocation ? row.LocationName : before?.LocationName)
        {
            RegisterTag = row.GivesTag ? row.Tag : before?.RegisterTag,
            Retired = row.Retired switch
            {
                true => before?.Retired ?? new(null, null),
                false => null,
                // Taken off the list by this very source, and on it again: that is all such a register says of it.
                null => stored is { WasListed: false } && stored.Source == sourceName ? null : before?.Retired,
            },
        };
    }

    /// <summary>Why the asset cannot be kept, or null.</summary>
    public static string? FaultOf(AssetToLoad asset) =>
        AssetContent.FaultOf(asset)
        ?? (RecordContradictions.Find(asset.Record) is { Count: > 0 } found ? string.Join(" ", found.Select(c => c.Sentence)) : null);
}
