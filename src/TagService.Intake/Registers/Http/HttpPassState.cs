using System.Globalization;

namespace TagService.Intake.Registers.Http;

/// <summary>Keeps the books of one pass: where it stands, what was counted, what puts the list in doubt, what is to be said.</summary>
internal sealed class HttpPassState
{
    private const int MostDoubts = 50;

    private readonly List<RegisterNotice> _notices = [];

    public HttpPassState(HttpRegisterOptions source, RegisterPosition? after)
    {
        var settings = HttpPosition.SettingsHash(source);
        var read = HttpPosition.Read(after, settings);
        if (after is not null && read is null)
            Notice("position-not-used", "The position belongs to other settings of the source; the pass begins at the start.");
        At = read switch
        {
            null => new() { Settings = settings },
            { Done: true } => new() { Settings = settings, Since = source.ChangedSinceParameter is null ? null : read.Start, ETag = source.UseETag ? read.ETag : null },
            _ => read,
        };
        // What went while nobody read has moved rows over the edge of a page.
        if (At is { Done: false, Page: > 0 } && source.Paging == HttpPaging.PageNumber)
            Doubt("The pass was resumed among numbered pages; rows may have moved past it meanwhile.");
    }

    /// <summary>Where the pass stands.</summary>
    public HttpPosition At { get; set; }

    /// <summary>Number of the page at hand, for people.</summary>
    public string Page => (At.Page + 1).ToString(CultureInfo.InvariantCulture);

    public void Notice(string code, string detail) => _notices.Add(new(code, detail));

    /// <summary>The notices since the last call.</summary>
    public IReadOnlyList<RegisterNotice> TakeNotices()
    {
        RegisterNotice[] taken = [.. _notices];
        _notices.Clear();
        return taken;
    }

    /// <summary>Something because of which the list may not be complete.</summary>
    public void Doubt(string doubt)
    {
        if (At.Doubts.Contains(doubt) || At.Doubts.Count >= MostDoubts)
            return;
        At = At with { Doubts = [.. At.Doubts, doubt] };
        Notice("list-in-doubt", doubt);
    }

    /// <summary>Rows handed on, up to a row of the page at hand.</summary>
    public void Count(int rows, int unreadable, HttpPageSession page) => At = At with
    {
        Rows = At.Rows + rows,
        Unreadable = At.Unreadable + unreadable,
        RowsOfPage = page.Rows,
        RowsHash = page.RowsHash,
    };

    /// <summary>The number of rows that a page announces.</summary>
    public void NoteTotal(long? announced)
    {
        if (announced is null)
            return;
        if (At.Announced is { } before && before != announced)
            Doubt(string.Create(CultureInfo.InvariantCulture, $"The source announced {before} rows, then {announced}: it changed while it was read."));
        At = At with { Announced = announced };
    }

    /// <summary>Ends the pass; what follows is the next one.</summary>
    public PassEnd Done(bool nothingNew, long repeats)
    {
        if (At.Announced is { } all && At.Rows + At.Unreadable < all && !nothingNew)
            Doubt(string.Create(CultureInfo.InvariantCulture, $"The source announced {all} rows and gave {At.Rows + At.Unreadable}."));
        if (At.Unreadable > 0)
            Doubt(string.Create(CultureInfo.InvariantCulture, $"{At.Unreadable} rows could not be read."));
        if (repeats > 0)
            Doubt(string.Create(CultureInfo.InvariantCulture, $"{repeats} rows came twice; where rows move between pages others may be missing."));
        var end = new PassEnd
        {
            NothingNew = nothingNew,
            ChangesOnly = At.Since is not null,
            Rows = At.Rows,
            Unreadable = At.Unreadable,
            Announced = At.Announced,
            Doubts = At.Doubts,
        };
        At = new() { Settings = At.Settings, Done = true, Start = At.Start ?? At.Since, ETag = At.ETag };
        return end;
    }
}
