using TagService.Domain.Profiles;
using TagService.Domain.Registers;
using TagService.Storage.Bulk;

namespace TagService.Intake.Registers;

/// <summary>Lays what a row says over what is stored: what a run does and a preview shows.</summary>
public static class RowOverlay
{
    /// <summary>The asset as it should be: fields that the row does not give stay.</summary>
    /// <param name="before">The asset as the mirror has it; null: it is new.</param>
    /// <param name="unlisted">It was taken off the list of this very source.</param>
    /// <param name="row">What the row says.</param>
    public static AssetToLoad Of(AssetToLoad? before, bool unlisted, MappedAsset row) =>
        new(row.ApplyTo(before?.Record) with { AssetId = row.AssetId }, row.GivesLocation ? row.LocationName : before?.LocationName)
        {
            RegisterTag = row.GivesTag ? row.Tag : before?.RegisterTag,
            Retired = row.Retired switch
            {
                true => before?.Retired ?? new(null, null),
                false => null,
                // On the list again: that is all such a register says of it.
                null => unlisted ? null : before?.Retired,
            },
        };

    /// <summary>Why the asset cannot be kept, or null.</summary>
    public static string? FaultOf(AssetToLoad asset) =>
        AssetContent.FaultOf(asset)
        ?? (RecordContradictions.Find(asset.Record) is { Count: > 0 } found ? string.Join(" ", found.Select(c => c.Sentence)) : null);
}
