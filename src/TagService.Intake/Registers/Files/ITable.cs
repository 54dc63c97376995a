using TagService.Domain.Registers;

namespace TagService.Intake.Registers.Files;

/// <summary>The rows of one file, in order, one at a time.</summary>
internal interface ITable : IDisposable
{
    /// <summary>The columns of all rows.</summary>
    RegisterColumns Columns { get; }

    /// <summary>What was found out; read after opening and again at the end, each notice once.</summary>
    IEnumerable<RegisterNotice> TakeNotices();

    /// <summary>The next row, or null at the end.</summary>
    /// <exception cref="RegisterReadException">The file cannot be read on.</exception>
    TableRow? Read();
}

/// <summary>A row of a file: values, or the reason why there are none.</summary>
/// <param name="Line">Line or row of the file, counted from 1.</param>
/// <param name="Text">As it stands in the file, bounded.</param>
/// <param name="Values">One a column; null when it could not be read.</param>
/// <param name="Reason">Why not.</param>
internal sealed record TableRow(long Line, string Text, IReadOnlyList<RegisterValue>? Values, string? Reason);
