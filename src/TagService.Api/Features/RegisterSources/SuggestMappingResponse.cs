namespace TagService.Api.Features.RegisterSources;

/// <summary>What the columns of a register might feed.</summary>
/// <param name="RowsRead">Rows looked at, without unit.</param>
/// <param name="Columns">One suggestion a column, in the columns' order.</param>
/// <param name="Mapping">The mapping that the good suggestions make, to be put as it is; absent when there is none.</param>
/// <param name="Notices">What to know of the source and of the mapping.</param>
public sealed record SuggestMappingResponse(
    int RowsRead, IReadOnlyList<ColumnSuggestionResponse> Columns, RegisterMappingRequest? Mapping, IReadOnlyList<SourceNoticeResponse> Notices);

/// <summary>What one column might feed.</summary>
/// <param name="Source">Column name or JSON pointer.</param>
/// <param name="Row">The mapping row suggested; absent when nothing fits: the column would be kept as an attribute.</param>
/// <param name="Confidence">From 0 to 1, a planning value for ranking, without unit; no probability.</param>
/// <param name="Reasons">Why, and what to check.</param>
/// <param name="BetterSource">Another column that fits the same field better.</param>
/// <param name="NotUnderstood">Up to five values that the suggested row does not understand.</param>
public sealed record ColumnSuggestionResponse(
    string Source, MappingRowRequest? Row, double Confidence, IReadOnlyList<string> Reasons, string? BetterSource, IReadOnlyList<string> NotUnderstood);
