using System.Net;
using System.Net.Sockets;

namespace TagService.Service.Tests.LocalDatabase;

/// <summary>Every expected failure says what happened and what to do, and loses nothing.</summary>
public sealed class StartupProblemTests : LocalDatabaseTest
{
    [Fact]
    public async Task Open_FolderOfSomethingElse_IsRefusedAndLeftAsItIs()
    {
        Directory.CreateDirectory(Folder);
        File.WriteAllText(Path.Combine(Folder, "thesis.odt"), "work of years");

        var problem = await ProblemAsync();

        Assert.Contains("thesis.odt", problem.Problem, StringComparison.Ordinal);
        Assert.Contains("LocalDatabase:Folder", problem.Remedy, StringComparison.Ordinal);
        Assert.Equal(["thesis.odt"], Directory.EnumerateFileSystemEntries(Folder).Select(Path.GetFileName));
    }

    [Fact]
    public async Task Open_FolderCannotBeCreated_SaysWhichAndWhy()
    {
        File.WriteAllText(Below("file"), "");
        var problem = await ProblemAsync(Options with { Folder = Below("file/database") });
        Assert.Contains(Below("file/database"), problem.Problem, StringComparison.Ordinal);
        Assert.Contains("LocalDatabase:Folder", problem.Remedy, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("12", "15 or later")] // older than any supported one
    [InlineData("99", "Installed here is")] // from a newer server that is not here
    public async Task Open_DataOfAnotherMajorVersion_IsRefusedAndLeftAsTheyAre(string major, string says)
    {
        await using (await OpenAsync())
        {
        }

        var version = Path.Combine(Folder, "data", "PG_VERSION");
        var real = File.ReadAllText(version);
        File.WriteAllText(version, major + "\n");

        var problem = await ProblemAsync();
        Assert.Contains($"made by PostgreSQL {major}", problem.Problem, StringComparison.Ordinal);
        Assert.Contains(says, problem.Problem, StringComparison.Ordinal);
        Assert.Contains("pg_dump", problem.Remedy, StringComparison.Ordinal);

        File.WriteAllText(version, real);
        await using var again = await OpenAsync();
        Assert.Equal(1, await AskAsync<int>(again.ConnectionString, "select 1"));
    }

    [Fact]
    public async Task Open_BinFolderWithoutPrograms_SaysWhichAndWhatToInstall()
    {
        Directory.CreateDirectory(Below("empty"));
        var problem = await ProblemAsync(Options with { BinFolder = Below("empty") });
        Assert.Contains(Below("empty"), problem.Problem, StringComparison.Ordinal);
        Assert.Contains("apt-get install postgresql", problem.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Open_InitdbFails_ShowsWhatItSaid()
    {
        var bin = BinFolderWith("initdb", "echo 'initdb: error: the moon is full' >&2; exit 1");
        var problem = await ProblemAsync(Options with { BinFolder = bin });
        Assert.Contains("the moon is full", problem.Problem, StringComparison.Ordinal);

        // And the next start, with that put right, works.
        await using var database = await OpenAsync();
        Assert.Equal(1, await AskAsync<int>(database.ConnectionString, "select 1"));
    }

    [Fact]
    public async Task Open_ServerDoesNotStart_ShowsTheEndOfItsLog()
    {
        await using (await OpenAsync())
        {
        }

        await File.AppendAllTextAsync(Path.Combine(Folder, "data", "postgresql.conf"), "\nmoon_phase = full\n");
        var problem = await ProblemAsync();
        Assert.Contains("unrecognized configuration parameter \"moon_phase\"", problem.Problem, StringComparison.Ordinal);
        Assert.Contains(Path.Combine(Folder, "server.log"), problem.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Open_ConfiguredPortTaken_SaysWhich()
    {
        using var other = new TcpListener(IPAddress.Loopback, 0);
        other.Start();
        var port = ((IPEndPoint)other.LocalEndpoint).Port;
        var problem = await ProblemAsync(Options with { Port = port });
        Assert.Contains($"Port {port} ", problem.Problem, StringComparison.Ordinal);
        Assert.Contains("LocalDatabase:Port", problem.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Open_PasswordLost_SaysWhichFile()
    {
        await using (await OpenAsync())
        {
        }

        File.Delete(Path.Combine(Folder, "password"));
        var problem = await ProblemAsync();
        Assert.Contains(Path.Combine(Folder, "password"), problem.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Open_AfterAProblem_TheFolderIsFreeAgain()
    {
        await ProblemAsync(NothingInstalled);
        await using var database = await OpenAsync();
        Assert.Equal(1, await AskAsync<int>(database.ConnectionString, "select 1"));
    }

    /// <summary>The installed programs, except that one is replaced by a shell script.</summary>
    private string BinFolderWith(string name, string script)
    {
        var bin = Directory.CreateDirectory(Below("bin")).FullName;
        foreach (var program in (string[])["initdb", "pg_ctl", "postgres"])
            File.CreateSymbolicLink(Path.Combine(bin, program), Path.Combine(Bin, program));
        File.Delete(Path.Combine(bin, name));
        File.WriteAllText(Path.Combine(bin, name), $"#!/bin/sh\n{script}\n");
        TemporaryFolder.SetMode(Path.Combine(bin, name), "755");
        return bin;
    }
}
