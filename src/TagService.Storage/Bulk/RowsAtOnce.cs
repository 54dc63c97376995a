using System.Runtime.ExceptionServices;

namespace TagService.Storage.Bulk;

/// <summary>Works rows out on all cores: while a chunk is prepared the database waits for it.</summary>
internal static class RowsAtOnce
{
    // Below that handing the rows out costs more than it brings.
    private const int Fewest = 64;

    /// <summary>One result for each row, in order.</summary>
    /// <param name="rows">The rows.</param>
    /// <param name="of">From a row to its result; called from several threads.</param>
    /// <remarks>What the function throws is thrown as it is, of several failures one.</remarks>
    public static TResult[] Select<TRow, TResult>(IReadOnlyList<TRow> rows, Func<TRow, TResult> of)
    {
        var results = new TResult[rows.Count];
        if (rows.Count < Fewest)
        {
            for (var i = 0; i < results.Length; i++)
                results[i] = of(rows[i]);
            return results;
        }

        try
        {
            Parallel.For(0, results.Length, i => results[i] = of(rows[i]));
        }
        catch (AggregateException e)
        {
            ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
        }

        return results;
    }
}
