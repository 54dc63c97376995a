using System.Globalization;

namespace TagService.Intake.Registers.Files;

/// <summary>What a file looks like from outside; a file that is written to changes it.</summary>
/// <param name="Length">Bytes.</param>
/// <param name="WrittenAt">When it was last written.</param>
internal readonly record struct FileStamp(long Length, DateTime WrittenAt)
{
    public static FileStamp Of(FileInfo file)
    {
        file.Refresh();
        return file.Exists ? new(file.Length, file.LastWriteTimeUtc) : throw new RegisterReadException(RegisterFault.NotFound, $"{file.Name} is gone.");
    }
}

/// <summary>Waits for files that are still being written.</summary>
internal static class FileSettling
{
    /// <summary>The stamp of a file that has not changed for the settle time.</summary>
    /// <exception cref="RegisterReadException">It changes all the time, or it is gone.</exception>
    public static async Task<FileStamp> WaitAsync(FileInfo file, RegisterFileOptions options, TimeProvider clock, CancellationToken cancellationToken)
    {
        var stamp = FileStamp.Of(file);
        if (clock.GetUtcNow().UtcDateTime - stamp.WrittenAt >= options.SettleTime)
            return stamp;
        // The file's clock can be another than ours: two looks a settle time apart.
        var begin = clock.GetTimestamp();
        while (true)
        {
            await Task.Delay(options.SettleTime, clock, cancellationToken);
            var now = FileStamp.Of(file);
            if (now == stamp)
                return now;
            stamp = now;
            if (clock.GetElapsedTime(begin) > options.MostSettleWait)
                throw new RegisterReadException(RegisterFault.StillBeingWritten, string.Create(CultureInfo.InvariantCulture, $"{file.Name} is still being written after {options.MostSettleWait.TotalSeconds:0} s."));
        }
    }
}
