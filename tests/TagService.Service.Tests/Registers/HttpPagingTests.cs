using System.Globalization;
using Microsoft.AspNetCore.Http;
using TagService.Intake.Registers;
using TagService.Intake.Registers.Http;
using static TagService.Service.Tests.Registers.FaultyRegister;
using static TagService.Service.Tests.Registers.RegisterTestHost;

namespace TagService.Service.Tests.Registers;

/// <summary>Pages in turn, resumed anywhere.</summary>
public sealed class HttpPagingTests
{
    private const int PageRows = 7;
    private const int AllRows = 45;

    public static TheoryData<HttpPaging, LastPage> Ways => new()
    {
        { HttpPaging.Link, LastPage.Empty },
        { HttpPaging.Cursor, LastPage.Empty },
        { HttpPaging.PageNumber, LastPage.Empty },
        { HttpPaging.PageNumber, LastPage.Short },
        { HttpPaging.PageNumber, LastPage.Total },
        { HttpPaging.None, LastPage.Empty },
    };

    [Theory]
    [MemberData(nameof(Ways))]
    public async Task ReadAsync_EachWayOfPaging_GivesEveryRowOnceInOrder(HttpPaging paging, LastPage lastPage)
    {
        await using var register = await StartAsync(paging);
        using var host = new RegisterTestHost();

        var pages = await AllAsync(host.Readers.Open(Source(register, paging, lastPage)));

        Assert.Equal(Expected(AllRows), Ids(pages));
        var end = pages[^1].End!;
        Assert.Equal((true, AllRows, 0L), (end.IsCompleteList, end.Rows, end.Unreadable));
        Assert.Equal(paging == HttpPaging.None ? 1 : lastPage == LastPage.Empty && paging == HttpPaging.PageNumber ? 8 : 7, register.Requests.Count);
    }

    [Theory]
    [MemberData(nameof(Ways))]
    public async Task ReadAsync_StoppedBehindEveryPageAndResumed_GivesEveryRowOnceInOrder(HttpPaging paging, LastPage lastPage)
    {
        await using var register = await StartAsync(paging);
        using var host = new RegisterTestHost();
        var pages = new List<RegisterPage>();
        RegisterPosition? at = null;
        while (pages.LastOrDefault()?.End is null)
        {
            // A new reader each time, as after a crash; only the position survives.
            await foreach (var page in host.Readers.Open(Source(register, paging, lastPage)).ReadAsync(at))
            {
                pages.Add(page);
                at = page.After;
                break;
            }
        }

        Assert.Equal(Expected(AllRows), Ids(pages));
        Assert.Equal(AllRows, pages[^1].End!.Rows);
        // Numbered pages shift when rows go between two stretches, so such a pass retires nothing.
        Assert.Equal(paging != HttpPaging.PageNumber, pages[^1].End!.IsCompleteList);
    }

    [Fact]
    public async Task ReadAsync_LongPageStoppedWithin_GoesOnBehindTheLastRow()
    {
        var breaks = true;
        await using var register = await FaultyRegister.StartAsync((context, _) =>
        {
            var json = Page(Enumerable.Range(0, 2500).Select(Row));
            return WriteAsync(context, breaks ? json[..(json.Length * 9 / 10)] : json);
        });
        using var host = new RegisterTestHost(("Registers:Http:Retries", "1"));
        var source = Source(register, HttpPaging.None, LastPage.Empty);

        var (before, failure) = await FailAsync(host.Readers.Open(source));
        breaks = false;
        var after = await AllAsync(host.Readers.Open(source), before[^1].After);

        Assert.Equal(RegisterFault.Truncated, failure.Fault);
        Assert.Equal(2000, Ids(before).Count);
        Assert.Equal(Expected(2500), Ids(before).Concat(Ids(after)));
        Assert.True(after[^1].End!.IsCompleteList);
    }

    [Fact]
    public async Task ReadAsync_PageChangedSinceItWasLeft_GivesEveryRowAtLeastOnceAndSaysSo()
    {
        var first = 0;
        await using var register = await FaultyRegister.StartAsync((context, _) =>
            WriteAsync(context, Page(Enumerable.Range(first, 1500).Select(Row))));
        using var host = new RegisterTestHost();
        var source = Source(register, HttpPaging.None, LastPage.Empty);
        RegisterPage before = null!;
        await foreach (var page in host.Readers.Open(source).ReadAsync(null))
        {
            before = page;
            break;
        }

        first = 3;
        var after = await AllAsync(host.Readers.Open(source), before.After);

        Assert.Equal(Enumerable.Range(3, 1500).Select(i => $"A-{i}"), Ids(after));
        Assert.Contains("changed", Assert.Single(after[^1].End!.Doubts), StringComparison.Ordinal);
    }

    [Fact]
    public async Task ReadAsync_PositionOfOtherSettings_StartsAnewAndSaysSo()
    {
        await using var register = await StartAsync(HttpPaging.Link);
        using var host = new RegisterTestHost();
        var cursor = await AllAsync(host.Readers.Open(Source(register, HttpPaging.None, LastPage.Empty)));

        foreach (var position in new[] { cursor[0].After, new RegisterPosition("nonsense") })
        {
            var pages = await AllAsync(host.Readers.Open(Source(register, HttpPaging.Link, LastPage.Empty)), position);
            Assert.Equal("position-not-used", pages[0].Notices[0].Code);
            Assert.Equal(Expected(AllRows), Ids(pages));
        }
    }

    internal static HttpRegisterOptions Source(FaultyRegister register, HttpPaging paging, LastPage lastPage) => new()
    {
        Address = new(register.Address, "/assets?view=all"),
        RowsPointer = "/items",
        KeyPointer = "/id",
        Paging = paging,
        CursorPointer = "/next",
        CursorParameter = "after",
        PageParameter = "page",
        LastPage = lastPage,
        SizeParameter = paging == HttpPaging.None ? null : "size",
        PageSize = paging == HttpPaging.None ? null : PageRows,
        TotalPointer = "/total",
    };

    internal static IEnumerable<string> Expected(int rows) => Enumerable.Range(0, rows).Select(i => $"A-{i}");

    private static Task<FaultyRegister> StartAsync(HttpPaging paging) => FaultyRegister.StartAsync((context, _) =>
    {
        Assert.Equal("all", context.Request.Query["view"]);
        var size = Number(context, "size", AllRows);
        var from = paging switch
        {
            HttpPaging.PageNumber => (Number(context, "page", 0) - 1) * size,
            _ => Number(context, "after", 0),
        };
        var next = from + size < AllRows ? (from + size).ToString(CultureInfo.InvariantCulture) : null;
        if (paging == HttpPaging.Link && next is not null)
            context.Response.Headers.Append("Link", $"</assets?view=all&size={size}>; rel=\"first\", <?view=all&size={size}&after={next}>; title=\"a, b; c\"; rel=\"next last\"");
        return WriteAsync(context, Page(Enumerable.Range(from, Math.Clamp(AllRows - from, 0, size)).Select(Row), paging == HttpPaging.Cursor ? next : null, AllRows));
    });
}
