namespace TagService.Storage.Places;

/// <summary>
/// One name under which a place is found, in its folded form. Kept beside the place's own columns because an index over a list
/// cannot keep an alias unique; written by the place's row itself, so that the two cannot differ.
/// </summary>
public abstract class PlaceNameRow
{
    /// <summary>The name as <see cref="Domain.Places.PlaceName.Fold"/> writes it.</summary>
    public required string Folded { get; init; }

    /// <summary>An alias means one place only; plain names may be shared.</summary>
    public required bool IsAlias { get; set; }
}
