using System.Globalization;
using System.IO.Compression;
using Microsoft.AspNetCore.Http;
using TagService.Intake.Registers;
using TagService.Intake.Registers.Http;
using static TagService.Service.Tests.Registers.FaultyRegister;
using static TagService.Service.Tests.Registers.HttpPagingTests;
using static TagService.Service.Tests.Registers.RegisterTestHost;

namespace TagService.Service.Tests.Registers;

/// <summary>What goes wrong is survived where it can be, and reported as what it is.</summary>
public sealed class HttpFaultTests
{
    [Theory]
    [InlineData(429, false)]
    [InlineData(503, true)]
    public async Task ReadAsync_Throttled_WaitsAsLongAsAsked(int status, bool asDate)
    {
        await using var register = await StartAsync((context, n) =>
        {
            if (n > 1)
                return WriteAsync(context, Page([Row(0)]));
            context.Response.StatusCode = status;
            // RFC 9110, section 10.2.3: seconds, or a date (which has whole seconds).
            context.Response.Headers.RetryAfter = asDate ? DateTimeOffset.UtcNow.AddSeconds(2).ToString("R", CultureInfo.InvariantCulture) : "1";
            return Task.CompletedTask;
        });
        using var host = new RegisterTestHost();

        Assert.Equal(["A-0"], Ids(await AllAsync(host.Readers.Open(One(register)))));
        var times = register.Requests.Select(r => r.At).ToArray();
        Assert.Equal(2, times.Length);
        Assert.InRange((times[1] - times[0]).TotalSeconds, 0.9, 10);
    }

    [Fact]
    public async Task ReadAsync_ThrottledForLong_StopsAndSaysWhenToGoOn()
    {
        await using var register = await StartAsync((context, _) =>
        {
            context.Response.StatusCode = 429;
            context.Response.Headers.RetryAfter = "3600";
            return Task.CompletedTask;
        });
        using var host = new RegisterTestHost();

        var (_, failure) = await FailAsync(host.Readers.Open(One(register)));

        Assert.Equal(RegisterFault.Throttled, failure.Fault);
        Assert.InRange((failure.RetryAt!.Value - DateTimeOffset.UtcNow).TotalMinutes, 59, 61);
        Assert.Single(register.Requests);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task ReadAsync_FailsHalfWayThroughAPage_ReadsItAgain(bool breaksConnection)
    {
        await using var register = await StartAsync(async (context, n) =>
        {
            var json = Page(Enumerable.Range(0, 300).Select(Row));
            await WriteAsync(context, n == 1 ? json[..(json.Length / 2)] : json);
            if (n > 1 || !breaksConnection)
                return;
            await context.Response.Body.FlushAsync();
            await Task.Delay(200);
            context.Abort();
        });
        using var host = new RegisterTestHost();

        var pages = await AllAsync(host.Readers.Open(One(register)));

        Assert.Equal(Expected(300), Ids(pages));
        Assert.Equal(2, register.Requests.Count);
        // A connection that breaks before the head is seen is a request sent again, not a page read again.
        Assert.True(breaksConnection || pages[0].Notices.Any(x => x.Code == "page-read-again"));
        // Rows that were read but not handed on did not come twice.
        Assert.All(pages.SelectMany(p => p.Rows), r => Assert.Equal(RowRepeat.None, r.Repeat));
        Assert.True(pages[^1].End!.IsCompleteList);
    }

    public static TheoryData<string, string, RegisterFault> Garbage => new()
    {
        { "<html>log in</html>", "text/html", RegisterFault.WrongContentType },
        { "{\"items\":[]}", "application/json; charset=iso-8859-1", RegisterFault.WrongContentType },
        { "{\"title\":\"no\"}", "application/problem+json", RegisterFault.WrongContentType },
        { "{\"items\":[{\"id\":1},", "application/json", RegisterFault.Truncated },
        { "{\"items\":[{\"id\":\"1", "application/json", RegisterFault.Truncated },
        { "", "application/json", RegisterFault.Truncated },
        { "{\"items\":[{\"id\":1}}", "application/json", RegisterFault.Malformed },
        { "garbage", "application/json", RegisterFault.Malformed },
        { "{\"items\":[]} {\"items\":[]}", "application/json", RegisterFault.Malformed },
        { "{\"error\":\"sorry\"}", "application/json", RegisterFault.NoRows },
        { "{\"items\":{\"id\":1}}", "application/json", RegisterFault.NoRows },
        { "[]", "application/json", RegisterFault.NoRows },
    };

    [Theory]
    [MemberData(nameof(Garbage))]
    public async Task ReadAsync_Garbage_IsReportedAsWhatItIs(string body, string type, RegisterFault fault)
    {
        await using var register = await StartAsync((context, _) => WriteAsync(context, body, type));
        using var host = new RegisterTestHost();

        Assert.Equal(fault, (await FailAsync(host.Readers.Open(One(register)))).Failure.Fault);
    }

    [Theory]
    [InlineData(401, RegisterFault.CredentialsRefused)]
    [InlineData(404, RegisterFault.NotFound)]
    [InlineData(400, RegisterFault.RequestRefused)]
    [InlineData(500, RegisterFault.SourceFailed)]
    [InlineData(204, RegisterFault.NoRows)]
    public async Task ReadAsync_Status_IsReportedAsWhatItIs(int status, RegisterFault fault)
    {
        await using var register = await StartAsync((context, _) =>
        {
            context.Response.StatusCode = status;
            return Task.CompletedTask;
        });
        using var host = new RegisterTestHost();

        Assert.Equal(fault, (await FailAsync(host.Readers.Open(One(register)))).Failure.Fault);
    }

    [Fact]
    public async Task ReadAsync_RowsThatAreNone_AreKeptWithReasonAndTheRestGoesOn()
    {
        var deep = string.Concat(Enumerable.Repeat("{\"a\":", 20)) + "1" + new string('}', 20);
        string[] rows =
        [
            Row(0), "17", "null", "[1]", "{\"id\":\"x\",\"id\":\"y\"}", $"{{\"id\":{deep}}}", "{\"id\":\"\\ud800\"}",
            $"{{\"id\":\"big\",\"list\":[{string.Join(",", Enumerable.Repeat("1234567", 20_000))}]}}", Row(1),
        ];
        await using var register = await StartAsync((context, _) => WriteAsync(context, Page(rows)));
        using var host = new RegisterTestHost();

        var pages = await AllAsync(host.Readers.Open(One(register) with { MostRowBytes = 100_000 }));

        Assert.Equal(["A-0", "A-1"], Ids(pages));
        var unreadable = pages.SelectMany(p => p.Unreadable).ToArray();
        Assert.Equal(Enumerable.Range(2, 7).Select(i => $"page 1, item {i}"), unreadable.Select(u => u.Place));
        Assert.All(unreadable, u => Assert.InRange(u.OriginalText.Length, 1, 4001));
        Assert.Contains("twice", unreadable[3].Reason, StringComparison.Ordinal);
        Assert.Contains("larger", unreadable[6].Reason, StringComparison.Ordinal);
        // Seven assets may be there although they could not be read.
        Assert.False(pages[^1].End!.IsCompleteList);
    }

    [Fact]
    public async Task ReadAsync_RepeatsAndDropsRows_SaysBoth()
    {
        await using var register = await StartAsync((context, _) => WriteAsync(
            context, Page([Row(0), Row(1), Row(1), Row(2).Replace("pump", "valve", StringComparison.Ordinal), Row(2)], null, 9)));
        using var host = new RegisterTestHost();

        var pages = await AllAsync(host.Readers.Open(One(register)));

        Assert.Equal([RowRepeat.None, RowRepeat.None, RowRepeat.Same, RowRepeat.None, RowRepeat.Changed], pages[0].Rows.Select(r => r.Repeat));
        var end = pages[^1].End!;
        Assert.Equal((false, 9L, 5L), (end.IsCompleteList, end.Announced, end.Rows));
        Assert.Contains(end.Doubts, d => d.Contains("announced 9 rows and gave 5", StringComparison.Ordinal));
        Assert.Contains(end.Doubts, d => d.Contains("2 rows came twice", StringComparison.Ordinal));
    }

    [Fact]
    public async Task ReadAsync_ChangesUnderTheReader_PutsTheListInDoubt()
    {
        await using var register = await StartAsync((context, n) => WriteAsync(
            context, Page(Enumerable.Range(n * 10, n < 4 ? 10 : 0).Select(Row), null, n == 2 ? 29 : 30)));
        using var host = new RegisterTestHost();

        var end = (await AllAsync(host.Readers.Open(Source(register, HttpPaging.PageNumber, LastPage.Empty))))[^1].End!;

        Assert.Contains(end.Doubts, d => d.Contains("announced 30 rows, then 29", StringComparison.Ordinal));
        Assert.False(end.IsCompleteList);
    }

    [Fact]
    public async Task ReadAsync_SlowHead_TimesOut()
    {
        await using var register = await StartAsync((context, _) => Task.Delay(Timeout.Infinite, context.RequestAborted));
        using var host = new RegisterTestHost(("Registers:Http:AttemptTimeout", "00:00:00.2"), ("Registers:Http:Retries", "1"));

        Assert.Equal(RegisterFault.TimedOut, (await FailAsync(host.Readers.Open(One(register)))).Failure.Fault);
        Assert.Equal(2, register.Requests.Count);
    }

    [Theory]
    [InlineData("Registers:Http:ReadTimeout", "00:00:00.2", 0)]
    [InlineData("Registers:Http:PageTimeout", "00:00:00.5", 20)]
    public async Task ReadAsync_SlowBody_TimesOut(string setting, string value, int everyMilliseconds)
    {
        await using var register = await StartAsync(async (context, _) =>
        {
            context.Response.ContentType = "application/json";
            await context.Response.WriteAsync("{\"items\":[");
            while (true)
            {
                await context.Response.WriteAsync(" ");
                await context.Response.Body.FlushAsync();
                await Task.Delay(everyMilliseconds == 0 ? Timeout.Infinite : everyMilliseconds, context.RequestAborted);
            }
        });
        using var host = new RegisterTestHost((setting, value), ("Registers:Http:Retries", "0"));

        Assert.Equal(RegisterFault.TimedOut, (await FailAsync(host.Readers.Open(One(register)))).Failure.Fault);
    }

    [Fact]
    public async Task ReadAsync_SameCursorAgain_IsACircle()
    {
        await using var register = await StartAsync((context, n) => WriteAsync(context, Page([Row(n)], "same")));
        using var host = new RegisterTestHost();

        var (pages, failure) = await FailAsync(host.Readers.Open(Source(register, HttpPaging.Cursor, LastPage.Empty)));

        Assert.Equal(RegisterFault.EndlessPaging, failure.Fault);
        Assert.Equal(["A-1", "A-2"], Ids(pages));
    }

    [Fact]
    public async Task ReadAsync_EverNewCursorsWithTheSameRows_DoNotGoOnForEver()
    {
        await using var register = await StartAsync((context, n) => WriteAsync(context, Page([Row(0)], $"c{n}")));
        using var host = new RegisterTestHost();

        Assert.Equal(RegisterFault.EndlessPaging, (await FailAsync(host.Readers.Open(Source(register, HttpPaging.Cursor, LastPage.Empty)))).Failure.Fault);
        Assert.InRange(register.Requests.Count, 2, 50);
    }

    [Fact]
    public async Task ReadAsync_MorePagesThanAllowed_Stops()
    {
        await using var register = await StartAsync((context, n) => WriteAsync(context, Page([Row(n)], $"c{n}")));
        using var host = new RegisterTestHost();

        var (pages, failure) = await FailAsync(host.Readers.Open(Source(register, HttpPaging.Cursor, LastPage.Empty) with { MostPages = 5 }));

        Assert.Equal((RegisterFault.EndlessPaging, 5), (failure.Fault, Ids(pages).Count));
    }

    [Fact]
    public async Task ReadAsync_SmallBodyThatUnpacksLarge_IsTooLarge()
    {
        await using var register = await StartAsync(async (context, _) =>
        {
            context.Response.ContentType = "application/json";
            context.Response.Headers.ContentEncoding = "gzip";
            var spaces = new byte[100_000];
            Array.Fill(spaces, (byte)0x20);
            await using var gzip = new GZipStream(context.Response.Body, CompressionLevel.Fastest);
            for (var i = 0; i < 500; i++)
                await gzip.WriteAsync(spaces);
        });
        using var host = new RegisterTestHost();
        var source = One(register) with { MostPageBytes = 1_000_000, MostRowBytes = 16 * 1024 * 1024 };

        var fault = (await FailAsync(host.Readers.Open(source))).Failure.Fault;

        Assert.Equal(RegisterFault.TooLarge, fault);
    }

    [Fact]
    public async Task ReadAsync_HostThatKeepsFailing_IsLeftAloneForAWhile()
    {
        await using var register = await StartAsync((context, _) =>
        {
            context.Response.StatusCode = 500;
            return Task.CompletedTask;
        });
        using var host = new RegisterTestHost(("Registers:Http:CircuitLeastRequests", "3"), ("Registers:Http:Retries", "1"));
        var reader = host.Readers.Open(One(register));
        await FailAsync(reader);
        await FailAsync(reader);

        var before = register.Requests.Count;
        var (_, failure) = await FailAsync(reader);

        Assert.Equal(RegisterFault.CircuitOpen, failure.Fault);
        Assert.NotNull(failure.RetryAt);
        Assert.Equal(before, register.Requests.Count);
    }

    [Fact]
    public async Task ReadAsync_NobodyThere_IsUnreachable()
    {
        var register = await StartAsync((_, _) => Task.CompletedTask);
        await register.DisposeAsync();
        using var host = new RegisterTestHost(("Registers:Http:Retries", "1"));

        Assert.Equal(RegisterFault.Unreachable, (await FailAsync(host.Readers.Open(One(register)))).Failure.Fault);
    }

    private static HttpRegisterOptions One(FaultyRegister register) => Source(register, HttpPaging.None, LastPage.Empty);
}
