using System.Globalization;
using TagService.Intake.Registers.Http;
using static TagService.Service.Tests.Registers.FaultyRegister;
using static TagService.Service.Tests.Registers.HttpPagingTests;
using static TagService.Service.Tests.Registers.RegisterTestHost;

namespace TagService.Service.Tests.Registers;

/// <summary>Only what changed since the last pass.</summary>
public sealed class HttpIncrementalTests
{
    [Theory]
    [InlineData(ChangedSinceFormat.Rfc3339, "2026-02-03T04:50:06Z")]
    [InlineData(ChangedSinceFormat.UnixSeconds, "1770094206")]
    public async Task ReadAsync_SecondPass_AsksFromTheStartOfTheFirstByTheSourcesClockLessTheOverlap(ChangedSinceFormat format, string expected)
    {
        // 2026-02-03T05:00:06Z less ten minutes; 1770094206 by "date -u -d 2026-02-03T04:50:06Z +%s" (GNU coreutils).
        var clock = new DateTimeOffset(2026, 2, 3, 5, 0, 6, TimeSpan.Zero);
        await using var register = await StartAsync((context, n) =>
        {
            context.Response.Headers.Date = clock.AddMinutes(n - 1).ToString("R", CultureInfo.InvariantCulture);
            return WriteAsync(context, Page(n <= 2 ? [Row(n)] : [], n == 1 ? "c" : null));
        });
        using var host = new RegisterTestHost();
        var source = Source(register, HttpPaging.Cursor, LastPage.Empty) with { ChangedSinceParameter = "changedSince", ChangedSinceFormat = format };

        var first = await AllAsync(host.Readers.Open(source));
        var second = await AllAsync(host.Readers.Open(source), first[^1].After);

        Assert.False(first[^1].End!.ChangesOnly);
        Assert.True(second[^1].End!.ChangesOnly);
        Assert.False(second[^1].End!.IsCompleteList);
        var asked = register.Requests.Select(r => Uri.UnescapeDataString(r.Path)).ToArray();
        Assert.DoesNotContain("changedSince", asked[0] + asked[1], StringComparison.Ordinal);
        Assert.Contains("changedSince=" + expected, asked[2], StringComparison.Ordinal);
    }

    // RFC 9110, sections 13.1.2 and 15.4.5: If-None-Match and 304.
    [Fact]
    public async Task ReadAsync_EntityTagUnchanged_IsNothingNew()
    {
        var tag = "W/\"v1\"";
        await using var register = await StartAsync((context, _) =>
        {
            context.Response.Headers.ETag = tag;
            if (context.Request.Headers.IfNoneMatch != tag)
                return WriteAsync(context, Page([Row(0)]));
            context.Response.StatusCode = 304;
            return Task.CompletedTask;
        });
        using var host = new RegisterTestHost();
        var source = Source(register, HttpPaging.None, LastPage.Empty) with { UseETag = true };

        var first = await AllAsync(host.Readers.Open(source));
        var second = await AllAsync(host.Readers.Open(source), first[^1].After);
        var third = await AllAsync(host.Readers.Open(source), second[^1].After);
        tag = "W/\"v2\"";
        var fourth = await AllAsync(host.Readers.Open(source), third[^1].After);

        Assert.True(first[^1].End is { NothingNew: false, IsCompleteList: true });
        Assert.True(second[^1].End is { NothingNew: true, IsCompleteList: false });
        Assert.True(third[^1].End!.NothingNew);
        Assert.Equal(["A-0"], Ids(fourth));
    }

    [Fact]
    public void Issues_SettingsThatContradict_AreNamed()
    {
        var issues = HttpRegisterCheck.Issues(new()
        {
            Address = new("ftp://user@register.example/"), RowsPointer = "items", Paging = HttpPaging.PageNumber, LastPage = LastPage.Short, UseETag = true,
        });

        Assert.Equal(["/address", "/rowsPointer", "/pageParameter", "/pageSize", "/useETag"], issues.Select(i => i.Pointer));
    }
}
