namespace TagService.Intake.Registers;

/// <summary>
/// Reads one register source as a stream of raw rows that can be stopped anywhere and resumed. Every page carries the position
/// behind it; whoever stores that position in the transaction that stores the page's rows gets every row at least once, in the
/// source's order, whatever is killed in between.
/// </summary>
public interface IRegisterReader
{
    /// <summary>Reads one pass over the source.</summary>
    /// <param name="after">
    /// Null: a pass from the start. A position in the middle of a pass: its rest. The position behind a finished pass: the next pass, only
    /// what changed where the source can tell. A position of other settings of the source is not used: a pass from the start.
    /// </param>
    /// <param name="cancellationToken">Ends the reading between two reads of the source.</param>
    /// <returns>Pages in order, at most 1,000 rows each; the last one has <see cref="RegisterPage.End"/>. Pages can be empty.</returns>
    /// <exception cref="RegisterReadException">The source cannot be read on; what was returned before stays valid.</exception>
    IAsyncEnumerable<RegisterPage> ReadAsync(RegisterPosition? after, CancellationToken cancellationToken = default);
}
