using Microsoft.Extensions.Options;
using TagService.Intake.Registers.Files;
using TagService.Intake.Registers.Http;

namespace TagService.Intake.Registers;

/// <summary>Opens sources.</summary>
public sealed class RegisterReaders(
    IHttpClientFactory clients, IOptions<RegisterOutboundOptions> outbound, IOptions<RegisterFileOptions> files, TimeProvider clock)
{
    /// <summary>A source of any kind.</summary>
    /// <exception cref="ArgumentException">It has none or more than one kind, or its settings have issues.</exception>
    public IRegisterReader Open(RegisterSource source) => source switch
    {
        { Http: { } http, Csv: null, Spreadsheet: null } => Open(http),
        { Http: null, Csv: { } csv, Spreadsheet: null } => Open(csv),
        { Http: null, Csv: null, Spreadsheet: { } sheet } => Open(sheet),
        _ => throw new ArgumentException("A source is exactly one of http, csv and spreadsheet.", nameof(source)),
    };

    /// <summary>A source that answers HTTP.</summary>
    /// <exception cref="ArgumentException">The settings have issues by <see cref="HttpRegisterCheck"/>.</exception>
    public IRegisterReader Open(HttpRegisterOptions source) => new HttpRegisterReader(source, clients, outbound, clock);

    /// <summary>Files of separated values in a folder.</summary>
    /// <exception cref="ArgumentException">The settings have issues by <see cref="FileRegisterCheck"/>.</exception>
    public IRegisterReader Open(CsvRegisterOptions source) => new CsvRegisterReader(source, files, clock);

    /// <summary>Spreadsheets in a folder.</summary>
    /// <exception cref="ArgumentException">The settings have issues by <see cref="FileRegisterCheck"/>.</exception>
    public IRegisterReader Open(SpreadsheetRegisterOptions source) => new SpreadsheetRegisterReader(source, files, clock);
}
