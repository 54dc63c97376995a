using TagService.Intake.Registers;
using TagService.Intake.Registers.Files;
using TagService.Service.Tests.LocalDatabase;
using static TagService.Service.Tests.Registers.RegisterTestHost;

namespace TagService.Service.Tests.Registers;

/// <summary>Which files of a folder are read, when, and that nothing outside it is.</summary>
public sealed class RegisterFolderTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly TemporaryFolder _elsewhere = new();

    [Theory]
    [InlineData("../*.csv")]
    [InlineData("/etc/passwd")]
    [InlineData("..\\x.csv")]
    [InlineData("..")]
    [InlineData("")]
    public void Open_PatternWithAPath_IsRefused(string pattern)
    {
        using var host = Host();

        Assert.Throws<ArgumentException>(() => host.Readers.Open(Source() with { Pattern = pattern }));
    }

    [Fact]
    public void Open_FolderThatIsNotConfigured_IsRefused()
    {
        using var host = Host();

        Assert.Throws<ArgumentException>(() => host.Readers.Open(Source() with { Folder = "/etc" }));
    }

    [Fact]
    public async Task ReadAsync_LinkOutOfTheFolder_IsNotReadAndSaid()
    {
        File.WriteAllText(_elsewhere.Below("secret.csv"), "id\nsecret\n");
        File.CreateSymbolicLink(_folder.Below("a.csv"), _elsewhere.Below("secret.csv"));
        Directory.CreateSymbolicLink(_folder.Below("out"), _elsewhere.Path);
        File.CreateSymbolicLink(_folder.Below("b.csv"), _folder.Below("out/secret.csv"));
        File.WriteAllText(_folder.Below("inside.csv"), "id\nfine\n");
        using var host = Host();

        var pages = await AllAsync(host.Readers.Open(Source()));

        Assert.Equal(["fine"], Ids(pages, "id"));
        Assert.Equal(2, pages[0].Notices.Count(n => n.Code == "file-outside-folder"));
        File.Delete(_folder.Below("inside.csv"));
        Assert.Equal(RegisterFault.NotFound, (await FailAsync(host.Readers.Open(Source()))).Failure.Fault);
    }

    [Fact]
    public async Task ReadAsync_FolderThatIsALinkItself_IsRead()
    {
        File.WriteAllText(_elsewhere.Below("a.csv"), "id\nfine\n");
        Directory.CreateSymbolicLink(_folder.Below("link"), _elsewhere.Path);
        using var host = new RegisterTestHost(("Registers:Files:Folders:exports", _folder.Below("link")));

        Assert.Equal(["fine"], Ids(await AllAsync(host.Readers.Open(Source())), "id"));
    }

    [Fact]
    public async Task ReadAsync_FileStillBeingWritten_IsWaitedFor()
    {
        var path = _folder.Below("a.csv");
        await File.WriteAllTextAsync(path, "id\n");
        using var host = Host("00:00:00.6");
        var writing = Task.Run(async () =>
        {
            for (var i = 0; i < 8; i++)
            {
                await Task.Delay(150);
                await File.AppendAllTextAsync(path, $"{i}\n");
            }
        });

        var pages = await AllAsync(host.Readers.Open(Source()));
        await writing;

        Assert.Equal(Enumerable.Range(0, 8).Select(i => $"{i}"), Ids(pages, "id"));
    }

    [Fact]
    public async Task ReadAsync_FileThatNeverSettles_IsSaid()
    {
        var path = _folder.Below("a.csv");
        await File.WriteAllTextAsync(path, "id\n");
        using var host = new RegisterTestHost(
            ("Registers:Files:Folders:exports", _folder.Path), ("Registers:Files:SettleTime", "00:00:00.3"), ("Registers:Files:MostSettleWait", "00:00:01"));
        using var stop = new CancellationTokenSource();
        var writing = Task.Run(async () =>
        {
            while (!stop.IsCancellationRequested)
            {
                await File.AppendAllTextAsync(path, "x\n");
                await Task.Delay(50);
            }
        });

        var (_, failure) = await FailAsync(host.Readers.Open(Source()));
        await stop.CancelAsync();
        await writing;

        Assert.Equal(RegisterFault.StillBeingWritten, failure.Fault);
    }

    [Fact]
    public async Task ReadAsync_Newest_ReadsTheFileWrittenLast()
    {
        Write("b.csv", "old", 3);
        Write("a.csv", "new", 1);
        using var host = Host();

        Assert.Equal(["new"], Ids(await AllAsync(host.Readers.Open(Source())), "id"));
    }

    [Fact]
    public async Task ReadAsync_EachOnce_ReadsOneFileAPassInTheOrderOfNames()
    {
        Write("2026-01-01.csv", "first", 1);
        Write("2026-01-02.csv", "second", 3);
        using var host = Host();
        var reader = host.Readers.Open(Source() with { Which = WhichFiles.EachOnce, HoldsChangesOnly = true });

        var first = await AllAsync(reader);
        var second = await AllAsync(reader, first[^1].After);
        var none = await AllAsync(reader, second[^1].After);
        Write("2026-01-03.csv", "third", 0);
        var third = await AllAsync(reader, none[^1].After);

        Assert.Equal(["first", "second", "third"], Ids([.. first, .. second, .. none, .. third], "id"));
        Assert.True(none[^1].End!.NothingNew);
        Assert.False(first[^1].End!.IsCompleteList);
    }

    public void Dispose()
    {
        _folder.Dispose();
        _elsewhere.Dispose();
    }

    private static CsvRegisterOptions Source() => new() { Folder = "exports", Pattern = "*.csv" };

    private RegisterTestHost Host(string settleTime = "00:00:00") =>
        new(("Registers:Files:Folders:exports", _folder.Path), ("Registers:Files:SettleTime", settleTime));

    private void Write(string name, string id, int hoursAgo)
    {
        File.WriteAllText(_folder.Below(name), $"id\n{id}\n");
        File.SetLastWriteTimeUtc(_folder.Below(name), DateTime.UtcNow.AddHours(-hoursAgo));
    }
}
