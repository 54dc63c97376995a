using TagService.Domain.Registers;

namespace TagService.Intake.Registers.Preview;

/// <summary>What a run would do with a row.</summary>
public enum PreviewOutcome
{
    /// <summary>The asset is new.</summary>
    Created,

    /// <summary>The asset changes; changes lists the fields.</summary>
    Changed,

    /// <summary>The mirror has the asset like that.</summary>
    Unchanged,

    /// <summary>The row is not taken; reason says why.</summary>
    Refused,

    /// <summary>The same row came before and is left out.</summary>
    Repeated,
}

/// <summary>One row of a preview.</summary>
/// <param name="Place">Where it stood.</param>
/// <param name="AssetId">The asset's key, where it could be read.</param>
/// <param name="Outcome">What a run would do with it.</param>
/// <param name="Reason">Why it is refused.</param>
/// <param name="Changes">Fields that would change, place, tag and retirement among them.</param>
/// <param name="Problems">Values that were not taken as they are.</param>
/// <param name="OriginalText">Of a refused row its text.</param>
public sealed record PreviewedRow(
    string Place, string? AssetId, PreviewOutcome Outcome, string? Reason, IReadOnlyList<FieldChange> Changes, IReadOnlyList<RowProblem> Problems, string? OriginalText);

/// <summary>What a run would do.</summary>
/// <param name="Rows">Row by row.</param>
/// <param name="Tally">Values that were not understood or not recognised.</param>
/// <param name="MissingSources">Columns that feed a field but that none of the rows has.</param>
public sealed record RegisterPreview(IReadOnlyList<PreviewedRow> Rows, NotUnderstoodTally Tally, IReadOnlyList<string> MissingSources);
