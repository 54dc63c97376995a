using TagService.Domain.Registers;
using TagService.Intake.Registers;
using TagService.Intake.Registers.Preview;

namespace TagService.Api.Features.RegisterSources;

/// <summary>What a run would do with the rows looked at. Nothing was written.</summary>
/// <param name="RowsRead">Rows looked at, without unit.</param>
/// <param name="IsWhole">The source has no more rows than these.</param>
/// <param name="Created">Rows that would make a new asset, without unit.</param>
/// <param name="Changed">Rows that would change an asset, without unit.</param>
/// <param name="Unchanged">Rows that the mirror has like that, without unit.</param>
/// <param name="Refused">Rows that would be refused, without unit.</param>
/// <param name="Repeated">Rows that would be left out because the same row came before, without unit.</param>
/// <param name="Failure">Why the source could not be read on behind these rows.</param>
/// <param name="MissingSources">Columns that feed a field but that none of the rows has.</param>
/// <param name="Notices">What to know of the source.</param>
/// <param name="Values">Values that were not understood or not recognised, the most frequent first: what to add to a value table.</param>
/// <param name="ValuesNotListed">Further such values, not listed because there are too many different ones, without unit.</param>
/// <param name="Rows">Row by row; rows that could not be read as rows come last.</param>
public sealed record PreviewResponse(
    int RowsRead,
    bool IsWhole,
    int Created,
    int Changed,
    int Unchanged,
    int Refused,
    int Repeated,
    ReadFailureResponse? Failure,
    IReadOnlyList<string> MissingSources,
    IReadOnlyList<SourceNoticeResponse> Notices,
    IReadOnlyList<ValueNoteResponse> Values,
    long ValuesNotListed,
    IReadOnlyList<PreviewRowResponse> Rows);

/// <summary>Why a source could not be read on.</summary>
/// <param name="Code">Which fault it was.</param>
/// <param name="Detail">What happened.</param>
public sealed record ReadFailureResponse(RegisterFault Code, string Detail);

/// <summary>Something to know of a source.</summary>
/// <param name="Code">Stable word.</param>
/// <param name="Detail">A sentence.</param>
public sealed record SourceNoticeResponse(string Code, string Detail);

/// <summary>A value that was not taken as it is, and how often.</summary>
/// <param name="Kind">What came of it.</param>
/// <param name="Field">Pointer of the field.</param>
/// <param name="Source">Column or pointer it came from.</param>
/// <param name="Value">The value, cut to 80 characters.</param>
/// <param name="Detail">What is the matter.</param>
/// <param name="Accepted">What would be accepted.</param>
/// <param name="Count">Rows that have it, without unit.</param>
public sealed record ValueNoteResponse(string Kind, string Field, string? Source, string Value, string Detail, string Accepted, long Count);

/// <summary>One row of a preview.</summary>
/// <param name="Place">Where it stood.</param>
/// <param name="AssetId">The asset's key, where it could be read.</param>
/// <param name="Outcome">What a run would do with it.</param>
/// <param name="Reason">Why it is refused.</param>
/// <param name="Changes">Fields that would change.</param>
/// <param name="Problems">Values that were not taken as they are.</param>
/// <param name="OriginalText">Of a refused row its text, at most 4,000 characters.</param>
public sealed record PreviewRowResponse(
    string Place,
    string? AssetId,
    PreviewOutcome Outcome,
    string? Reason,
    IReadOnlyList<RowChangeResponse> Changes,
    IReadOnlyList<RowProblemResponse> Problems,
    string? OriginalText);

/// <summary>A field that a row would change.</summary>
/// <param name="Field">Pointer of the field.</param>
/// <param name="Before">As stored; absent when nothing is.</param>
/// <param name="After">As the row has it; absent when it is taken away.</param>
public sealed record RowChangeResponse(string Field, string? Before, string? After);

/// <summary>A value of a row that was not taken as it is.</summary>
/// <param name="Kind">What came of it.</param>
/// <param name="Field">Pointer of the field.</param>
/// <param name="Source">Column or pointer it came from.</param>
/// <param name="Value">The value, cut to 80 characters.</param>
/// <param name="Detail">What is the matter.</param>
/// <param name="Accepted">What would be accepted.</param>
public sealed record RowProblemResponse(RowProblemKind Kind, string Field, string? Source, string Value, string Detail, string Accepted);
