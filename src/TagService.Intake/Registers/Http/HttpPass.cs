using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using TagService.Domain.Registers;

namespace TagService.Intake.Registers.Http;

/// <summary>One pass over an HTTP source: pages in turn, rows in portions, what breaks off is read again.</summary>
internal sealed class HttpPass : IAsyncDisposable
{
    private const int RowsAPortion = 1000;
    private const int MostPagesWithoutNews = 20;

    private readonly HttpRegisterOptions _source;
    private readonly RegisterOutboundOptions _outbound;
    private readonly RegisterRequests _requests;
    private readonly TimeProvider _clock;
    private readonly JsonRowFlattener _flattener = new();
    private readonly RepeatWatch _repeats = new();
    private readonly HashSet<string> _visited = [];
    private readonly HttpPassState _state;
    private HttpPageSession? _page;
    private RegisterReadException? _failure;
    private bool _pageHadNews;
    private int _pagesWithoutNews;
    private int _tries;

    public HttpPass(HttpRegisterOptions source, RegisterOutboundOptions outbound, RegisterRequests requests, TimeProvider clock, RegisterPosition? after)
    {
        (_source, _outbound, _requests, _clock) = (source, outbound, requests, clock);
        _state = new(source, after);
    }

    /// <summary>The next portion; the last one has an end, and nothing may be asked after it.</summary>
    public async Task<RegisterPage> NextAsync(CancellationToken cancellationToken)
    {
        if (_failure is { } failure)
            throw failure;
        var rows = new List<RawRow>();
        var unreadable = new List<UnreadableRow>();
        var before = _state.At;
        while (true)
        {
            try
            {
                if (_page is null && !await OpenAsync(cancellationToken))
                    return Page(rows, unreadable, _state.Done(nothingNew: true, _repeats.Repeats));
                while (rows.Count + unreadable.Count < RowsAPortion)
                {
                    if (!await _page!.ReadAsync(cancellationToken))
                        return Page(rows, unreadable, await EndOfPageAsync(rows.Count, unreadable.Count));
                    Take(rows, unreadable);
                }

                _tries = 0;
                _state.Count(rows.Count, unreadable.Count, _page!);
                return Page(rows, unreadable, null);
            }
            catch (RegisterReadException e) when (_page is not null && e.IsTransient && _tries < _outbound.Retries)
            {
                // The rows of this portion are read again with the rest of the page.
                rows.Clear();
                unreadable.Clear();
                _repeats.Forget();
                _state.At = before with { Doubts = _state.At.Doubts };
                await ClosePageAsync();
                _state.Notice("page-read-again", $"Page {_state.Page} broke off and is read again: {e.Message}");
                await Task.Delay(_outbound.RetryDelay * (Math.Pow(2, _tries) * (0.5 + (RandomNumberGenerator.GetInt32(1000) / 1000.0))), _clock, cancellationToken);
                _tries++;
            }
        }
    }

    /// <inheritdoc />
    public ValueTask DisposeAsync() => ClosePageAsync();

    // False when the source says that nothing changed, or has no content at all.
    private async Task<bool> OpenAsync(CancellationToken cancellationToken)
    {
        var address = PageAddress.Of(_source, _state.At);
        if (_state.At.Page >= _source.MostPages)
            throw new RegisterReadException(RegisterFault.EndlessPaging, string.Create(CultureInfo.InvariantCulture, $"The pass has more than {_source.MostPages} pages."));
        // A stored link is checked anew: what the operator allows may have changed.
        if (_state.At.Link is not null)
            address = _requests.Resolve(_source.Address, _state.At.Link, "A link");
        var (response, final) = await _requests.GetAsync(address, _state.At.Start is null ? _state.At.ETag : null, cancellationToken);
        if (response.StatusCode is HttpStatusCode.NotModified or HttpStatusCode.NoContent)
        {
            using (response)
            {
                if (response.StatusCode == HttpStatusCode.NotModified)
                    return false;
                throw new RegisterReadException(RegisterFault.NoRows, $"{PageAddress.Shown(final)} answers without content.");
            }
        }

        if (_state.At.Start is null)
            _state.At = _state.At with { Start = response.Headers.Date ?? _clock.GetUtcNow(), ETag = _source.UseETag ? response.Headers.ETag?.ToString() : null };
        try
        {
            _page = await HttpPageSession.OpenAsync(response, final, _source, _outbound, _clock, cancellationToken);
        }
        catch
        {
            response.Dispose();
            throw;
        }

        _visited.Add(Key(address));
        _pageHadNews = false;
        if (_state.At.RowsOfPage > 0)
            await SkipAsync(cancellationToken);
        return true;
    }

    private async Task SkipAsync(CancellationToken cancellationToken)
    {
        while (_page!.Rows < _state.At.RowsOfPage && await _page.ReadAsync(cancellationToken))
        {
        }

        _pageHadNews = true;
        if (_page.Rows == _state.At.RowsOfPage && _page.RowsHash == _state.At.RowsHash)
            return;
        // Other rows than before stand there: from the page's beginning, some rows come twice, none is lost.
        _state.Doubt($"Page {_state.Page} changed while it was read.");
        _state.At = _state.At with { RowsOfPage = 0, RowsHash = null };
        await ClosePageAsync();
        await OpenAsync(cancellationToken);
    }

    private void Take(List<RawRow> rows, List<UnreadableRow> unreadable)
    {
        var place = string.Create(CultureInfo.InvariantCulture, $"page {_state.At.Page + 1}, item {_page!.Rows}");
        string? reason = null;
        var row = _page.RowIsTooLarge ? null : _flattener.Flatten(_page.Row, out reason);
        if (row is null)
        {
            unreadable.Add(new(place, OriginalText.Of(_page.Row), reason ?? string.Create(CultureInfo.InvariantCulture, $"It is larger than {_source.MostRowBytes} bytes.")));
            return;
        }

        var key = _source.KeyPointer is { } pointer && row.Find(pointer) is { Kind: not RegisterValueKind.Empty } value ? value.Text : null;
        var repeat = _repeats.Note(key, _page.Row);
        _pageHadNews |= repeat != RowRepeat.Same;
        rows.Add(new(place, OriginalText.Of(_page.Row), row, repeat));
    }

    // The page has been read to its end: on to the next, or the end of the pass. If the next page cannot be gone to, the rows at hand
    // are handed on first; a resumed pass comes back to the end of this page.
    private async Task<PassEnd?> EndOfPageAsync(int rows, int unreadable)
    {
        var page = _page!;
        _state.NoteTotal(page.Announced);
        _state.Count(rows, unreadable, page);
        _pagesWithoutNews = _pageHadNews ? 0 : _pagesWithoutNews + 1;
        _tries = 0;
        try
        {
            if (NextOf(page) is not { } next)
                return _state.Done(nothingNew: false, _repeats.Repeats);
            if (_visited.Contains(Key(PageAddress.Of(_source, next))))
                throw new RegisterReadException(RegisterFault.EndlessPaging, $"Behind page {_state.Page} comes a page that was read before: the pages lead in a circle.");
            if (_pagesWithoutNews >= MostPagesWithoutNews)
                throw new RegisterReadException(RegisterFault.EndlessPaging, string.Create(CultureInfo.InvariantCulture, $"The last {MostPagesWithoutNews} pages had no row that was not read before."));
            _state.At = next;
        }
        catch (RegisterReadException e)
        {
            _failure = e;
        }
        finally
        {
            await ClosePageAsync();
        }

        return null;
    }

    private HttpPosition? NextOf(HttpPageSession page)
    {
        var next = _state.At with { Page = _state.At.Page + 1, RowsOfPage = 0, RowsHash = null };
        switch (_source.Paging)
        {
            case HttpPaging.Link:
                return page.NextLink is { } link ? next with { Link = _requests.Resolve(page.Address, link, "A link").AbsoluteUri } : null;
            case HttpPaging.Cursor:
                return page.Cursor is { } cursor ? next with { Cursor = cursor } : null;
            case HttpPaging.PageNumber:
                var isLast = page.Rows == 0 || _source.LastPage switch
                {
                    LastPage.Short => page.Rows < _source.PageSize,
                    LastPage.Total => _state.At.Announced is { } all && _state.At.Rows + _state.At.Unreadable >= all,
                    _ => false,
                };
                return isLast ? null : next;
            default:
                return null;
        }
    }

    private RegisterPage Page(List<RawRow> rows, List<UnreadableRow> unreadable, PassEnd? end)
    {
        _repeats.Keep();
        return new() { Rows = rows, Unreadable = unreadable, Notices = _state.TakeNotices(), Announced = _state.At.Announced, After = _state.At.ToPosition(), End = end };
    }

    private static string Key(Uri address) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(address.AbsoluteUri)))[..16];

    private async ValueTask ClosePageAsync()
    {
        if (_page is { } page)
            await page.DisposeAsync();
        _page = null;
    }
}
