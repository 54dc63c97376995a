namespace TagService.Intake.Csv;

/// <summary>One record of a CSV text.</summary>
/// <param name="Line">Number of the line it begins on, from 1.</param>
/// <param name="Cells">Its fields, unquoted.</param>
/// <param name="Fault">Why it cannot be used, in words; null when it can.</param>
public sealed record CsvRow(long Line, IReadOnlyList<string> Cells, string? Fault = null);
