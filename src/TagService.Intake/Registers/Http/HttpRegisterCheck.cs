using TagService.Domain.Registers;

namespace TagService.Intake.Registers.Http;

/// <summary>Says what is wrong with the settings of an HTTP source.</summary>
public static class HttpRegisterCheck
{
    private const string Parameter = "a name of a query parameter";

    /// <summary>All that is wrong; empty when the source can be read.</summary>
    public static IReadOnlyList<MappingIssue> Issues(HttpRegisterOptions o) =>
        [.. Checks(o).Where(c => c.Wrong).Select(c => new MappingIssue(c.Pointer, null, c.Detail, c.Accepted))];

    private static IEnumerable<(bool Wrong, string Pointer, string Detail, string Accepted)> Checks(HttpRegisterOptions o)
    {
        yield return (!o.Address.IsAbsoluteUri || o.Address.Scheme is not ("https" or "http") || o.Address.UserInfo.Length > 0 || o.Address.Fragment.Length > 0,
            "/address", "This is no address to read from.", "an absolute https address without user, password and fragment");
        yield return (!JsonPointers.IsValid(o.RowsPointer), "/rowsPointer", "This is no JSON pointer.", "for example /items, or nothing when the answer is the array");
        yield return (!IsPointerOrNull(o.KeyPointer), "/keyPointer", "This is no JSON pointer.", "for example /id");
        yield return (!IsPointerOrNull(o.TotalPointer), "/totalPointer", "This is no JSON pointer.", "for example /total");
        yield return (o.Paging == HttpPaging.Cursor && (o.CursorPointer is null || !IsPointerOrNull(o.CursorPointer)), "/cursorPointer", "Paging by cursor needs the place of the cursor.", "for example /nextCursor");
        yield return (o.Paging == HttpPaging.Cursor && string.IsNullOrEmpty(o.CursorParameter), "/cursorParameter", "Paging by cursor needs the parameter that takes it.", Parameter);
        yield return (o.Paging == HttpPaging.PageNumber && string.IsNullOrEmpty(o.PageParameter), "/pageParameter", "Paging by number needs the parameter that takes it.", Parameter);
        yield return (o.Paging == HttpPaging.PageNumber && o.LastPage == LastPage.Short && o.PageSize is null, "/pageSize", "A short page is only short beside a known size.", "1 to 100,000 rows");
        yield return (o.Paging == HttpPaging.PageNumber && o.LastPage == LastPage.Total && o.TotalPointer is null, "/totalPointer", "The last page is told by the total, but its place is not given.", "for example /total");
        yield return (o.PageSize is < 1 or > 100_000, "/pageSize", "The size of a page is out of range.", "1 to 100,000 rows");
        yield return (o.SizeParameter is not null && o.PageSize is null, "/pageSize", "There is a parameter for the size of a page, but no size.", "1 to 100,000 rows");
        yield return (o.UseETag && o.Paging != HttpPaging.None, "/useETag", "The tag of the first page says nothing of the others.", "paging none, or changedSinceParameter");
        yield return (o.UseETag && o.ChangedSinceParameter is not null, "/useETag", "Either the tag or the moment tells what changed.", "one of the two");
        yield return (o.ChangedSinceOverlap < TimeSpan.Zero || o.ChangedSinceOverlap > TimeSpan.FromDays(31), "/changedSinceOverlap", "The overlap is out of range.", "0 to 31 days");
        yield return (o.MostPageBytes is < 1024 or > 4L * 1024 * 1024 * 1024, "/mostPageBytes", "The limit is out of range.", "1 KiB to 4 GiB");
        yield return (o.MostRowBytes is < 64 or > 16 * 1024 * 1024, "/mostRowBytes", "The limit is out of range.", "64 bytes to 16 MiB");
        yield return (o.MostPages is < 1 or > 1_000_000, "/mostPages", "The limit is out of range.", "1 to 1,000,000 pages");
    }

    private static bool IsPointerOrNull(string? pointer) => pointer is null || (pointer.Length > 0 && JsonPointers.IsValid(pointer));
}
