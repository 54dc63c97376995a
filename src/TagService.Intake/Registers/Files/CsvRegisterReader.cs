using Microsoft.Extensions.Options;

namespace TagService.Intake.Registers.Files;

/// <summary>Reads files of separated values (RFC 4180): encodings and separators configured or found out, quoted line breaks, ragged rows named by their line.</summary>
/// <param name="source">Settings without issues by <see cref="FileRegisterCheck"/>.</param>
/// <param name="options">What the operator allows.</param>
/// <param name="clock">The clock of waiting for files.</param>
/// <exception cref="ArgumentException">The settings have issues.</exception>
public sealed class CsvRegisterReader(CsvRegisterOptions source, IOptions<RegisterFileOptions> options, TimeProvider clock)
    : FileRegisterReader(source, options, clock)
{
    private protected override string Unit => "line";

    private protected override ITable OpenTable(Stream stream)
    {
        try
        {
            return new CsvTable(stream, source);
        }
        catch
        {
            stream.Dispose();
            throw;
        }
    }
}
