using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using Microsoft.Extensions.Options;
using TagService.Domain.Registers;

namespace TagService.Intake.Registers.Files;

/// <summary>Reads one file of a folder a pass. Memory is bounded by a portion of 1,000 rows.</summary>
public abstract class FileRegisterReader : IRegisterReader
{
    private const int RowsAPortion = 1000;

    private readonly FileRegisterOptions _source;
    private readonly RegisterFileOptions _options;
    private readonly TimeProvider _clock;
    private readonly string _settings;

    private protected FileRegisterReader(FileRegisterOptions source, IOptions<RegisterFileOptions> options, TimeProvider clock)
    {
        if (FileRegisterCheck.Issues(source, options.Value.Folders.Keys) is [var issue, ..])
            throw new ArgumentException($"{issue.Pointer}: {issue.Detail} Accepted: {issue.Accepted}.", nameof(source));
        (_source, _options, _clock) = (source, options.Value, clock);
        _settings = FilePosition.SettingsHash(source);
    }

    /// <inheritdoc />
    public async IAsyncEnumerable<RegisterPage> ReadAsync(
        RegisterPosition? after, [EnumeratorCancellation] CancellationToken cancellationToken = default)
    {
        var notices = new List<RegisterNotice>();
        var before = FilePosition.Read(after, _settings);
        if (after is not null && before is null)
            notices.Add(new("position-not-used", "The position belongs to other settings of the source; the pass begins at the start."));
        var folder = new RegisterFolder(_options.Folders[_source.Folder], _source.Folder);
        var file = Choose(folder, before, notices);
        if (file is null)
        {
            if (_source.Which == WhichFiles.Newest)
                notices.Add(new("no-file", $"No file of the folder {_source.Folder} is called {_source.Pattern}; the one read last is gone."));
            yield return Page([], [], notices, before ?? throw new RegisterReadException(RegisterFault.NotFound, $"No file of the folder {_source.Folder} is called {_source.Pattern}."), NothingNew);
            yield break;
        }

        var stamp = await FileSettling.WaitAsync(file, _options, _clock, cancellationToken);
        if (_source.Which == WhichFiles.Newest && before is { Done: true } && before.File == file.Name && before.Stamp == stamp)
        {
            yield return Page([], [], notices, before, NothingNew);
            yield break;
        }

        var at = new FilePosition { Settings = _settings, File = file.Name, Length = stamp.Length, WrittenAt = stamp.WrittenAt };
        var skip = before is { Done: false } && before.File == at.File ? Skip(before, stamp, notices) : 0;
        using var table = OpenTable(folder.Open(file));
        for (long i = 0; i < skip; i++)
            table.Read();
        if (skip > 0)
            at = at with { Rows = before!.Rows, Unreadable = before.Unreadable };
        var repeats = new RepeatWatch();
        for (var isLast = false; !isLast;)
        {
            cancellationToken.ThrowIfCancellationRequested();
            var rows = new List<RawRow>();
            var unreadable = new List<UnreadableRow>();
            isLast = !Fill(table, file.Name, repeats, rows, unreadable);
            at = at with { Rows = at.Rows + rows.Count, Unreadable = at.Unreadable + unreadable.Count, Done = isLast };
            repeats.Keep();
            if (isLast && FileStamp.Of(file) != stamp)
                throw new RegisterReadException(RegisterFault.Changed, $"{file.Name} was written to while it was read; it is to be read from its beginning.");
            notices.AddRange(table.TakeNotices());
            yield return Page(rows, unreadable, notices, at, isLast ? End(at, repeats) : null);
            notices.Clear();
            // The reading itself does not wait for anything: let others have the thread.
            await Task.Yield();
        }
    }

    private protected abstract ITable OpenTable(Stream stream);

    private static PassEnd NothingNew => new() { NothingNew = true, Rows = 0, Unreadable = 0 };

    private FileInfo? Choose(RegisterFolder folder, FilePosition? before, List<RegisterNotice> notices)
    {
        var (files, outside) = folder.Find(_source.Pattern);
        foreach (var name in outside)
            notices.Add(new("file-outside-folder", $"{name} leads out of its folder and is not read."));
        if (_source.Which == WhichFiles.Newest)
            return files.OrderByDescending(f => f.LastWriteTimeUtc).ThenByDescending(f => f.Name, StringComparer.Ordinal).FirstOrDefault();
        return files
            .OrderBy(f => f.Name, StringComparer.Ordinal)
            .FirstOrDefault(f => before is null || string.CompareOrdinal(f.Name, before.File) is var order && (before.Done ? order > 0 : order >= 0));
    }

    private static long Skip(FilePosition before, FileStamp stamp, List<RegisterNotice> notices)
    {
        if (before.Stamp == stamp)
            return before.Rows + before.Unreadable;
        notices.Add(new("file-changed", $"{before.File} was written anew since the pass was interrupted; it is read from its beginning."));
        return 0;
    }

    // False at the end of the file.
    private bool Fill(ITable table, string file, RepeatWatch repeats, List<RawRow> rows, List<UnreadableRow> unreadable)
    {
        while (rows.Count + unreadable.Count < RowsAPortion)
        {
            if (table.Read() is not { } row)
                return false;
            var place = string.Create(CultureInfo.InvariantCulture, $"{file}, {Unit} {row.Line}");
            if (row.Values is not { } values)
            {
                unreadable.Add(new(place, row.Text, row.Reason!));
                continue;
            }

            var read = new RegisterRow(table.Columns, values);
            var key = _source.KeyColumn is { } column && read.Find(column) is { Kind: not RegisterValueKind.Empty } value ? value.Text : null;
            rows.Add(new(place, row.Text, read, repeats.Note(key, Encoding.UTF8.GetBytes(row.Text))));
        }

        return true;
    }

    /// <summary>What places are counted in: line or row.</summary>
    private protected abstract string Unit { get; }

    private PassEnd End(FilePosition at, RepeatWatch repeats)
    {
        var doubts = new List<string>();
        if (at.Unreadable > 0)
            doubts.Add(string.Create(CultureInfo.InvariantCulture, $"{at.Unreadable} rows could not be read."));
        if (repeats.Repeats > 0 && _source.KeyColumn is not null)
            doubts.Add(string.Create(CultureInfo.InvariantCulture, $"{repeats.Repeats} rows have a key that came before."));
        return new() { ChangesOnly = _source.HoldsChangesOnly, Rows = at.Rows, Unreadable = at.Unreadable, Doubts = doubts };
    }

    private static RegisterPage Page(
        IReadOnlyList<RawRow> rows, IReadOnlyList<UnreadableRow> unreadable, List<RegisterNotice> notices, FilePosition at, PassEnd? end) =>
        new() { Rows = rows, Unreadable = unreadable, Notices = [.. notices], After = at.ToPosition(), End = end };
}
