using Microsoft.Extensions.Options;

namespace TagService.Intake.Registers.Files;

/// <summary>
/// Reads spreadsheets in the Office Open XML format: dates and numbers as typed cells, formulas by their stored result. A failed or missing
/// result and the covered part of a merged cell are marks, never empty cells; hidden rows are read and said. Numbers come without their
/// display: a key shown with leading zeros by its format has none.
/// </summary>
/// <param name="source">Settings without issues by <see cref="FileRegisterCheck"/>.</param>
/// <param name="options">What the operator allows.</param>
/// <param name="clock">The clock of waiting for files.</param>
/// <exception cref="ArgumentException">The settings have issues.</exception>
public sealed class SpreadsheetRegisterReader(SpreadsheetRegisterOptions source, IOptions<RegisterFileOptions> options, TimeProvider clock)
    : FileRegisterReader(source, options, clock)
{
    private protected override string Unit => "row";

    private protected override ITable OpenTable(Stream stream)
    {
        try
        {
            return SpreadsheetTable.Open(stream, source);
        }
        catch
        {
            stream.Dispose();
            throw;
        }
    }
}
