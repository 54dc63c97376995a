using System.Diagnostics;
using System.Globalization;
using Npgsql;

namespace TagService.Service.Tests.LocalDatabase;

/// <summary>One owner at a time, and what happens when an owner dies. The owners are processes of their own.</summary>
public sealed class OwnershipTests : LocalDatabaseTest
{
    public static TheoryData<string> Accounts => OwnerProcess.Accounts;

    [Theory]
    [MemberData(nameof(Accounts))]
    public async Task Open_ByAccount_WorksTwiceInARow(string account)
    {
        for (var round = 1; round <= 2; round++)
        {
            await using var owner = StartOwner(account);
            var connectionString = await owner.ReadAsync("OPEN");
            await WriteAsync(connectionString, round);
            Assert.Equal(round, await CountAsync(connectionString));
            Assert.Equal(0, await owner.CloseAsync());
        }
    }

    [Fact]
    public async Task Open_FolderInUse_IsRefusedAndTheOwnerGoesOn()
    {
        await using var owner = StartOwner();
        var connectionString = await owner.ReadAsync("OPEN");

        var problem = await ProblemAsync();
        Assert.Contains($"in use by another running TagService (process {owner.Id})", problem.Problem, StringComparison.Ordinal);
        Assert.Contains("LocalDatabase:Folder", problem.Remedy, StringComparison.Ordinal);
        Assert.Equal(1, await AskAsync<int>(connectionString, "select 1"));
    }

    [Fact]
    public async Task Open_OwnerWasKilled_TakesTheRunningServerOver()
    {
        await using var owner = StartOwner();
        var connectionString = await owner.ReadAsync("OPEN");
        await WriteAsync(connectionString, 1);
        var server = ServerProcessId();
        await owner.KillAsync();

        await using (var database = await OpenAsync())
        {
            Assert.Equal(server, ServerProcessId());
            Assert.Equal(connectionString, database.ConnectionString);
            Assert.Equal(1, await CountAsync(database.ConnectionString));
            Assert.Contains("found running and taken over", Assert.Single(Said), StringComparison.Ordinal);
        }

        // The new owner is an owner like any other: it stops the server.
        await AssertEndedAsync(server);
    }

    [Fact]
    public async Task Open_OwnerWasKilledAndAnotherPortIsWanted_MovesTheServer()
    {
        await using var owner = StartOwner();
        var connectionString = await owner.ReadAsync("OPEN");
        await WriteAsync(connectionString, 1);
        var oldPort = new NpgsqlConnectionStringBuilder(connectionString).Port;
        await owner.KillAsync();

        // Any other free port; the range below 32768 is not handed out by the system.
        await using var database = await OpenAsync(Options with { Port = 23_417 });
        Assert.NotEqual(oldPort, new NpgsqlConnectionStringBuilder(database.ConnectionString).Port);
        Assert.Equal(1, await CountAsync(database.ConnectionString));
    }

    [Fact]
    public async Task Open_OwnerAndServerWereKilled_RecoversTheData()
    {
        await using var owner = StartOwner();
        await WriteAsync(await owner.ReadAsync("OPEN"), 1);
        var server = ServerProcessId();
        await owner.KillAsync();
        Process.GetProcessById(server).Kill();
        await AssertEndedAsync(server);
        Assert.Equal(server, ServerProcessId()); // the stale file is there

        await using var database = await OpenAsync();
        Assert.Equal(1, await CountAsync(database.ConnectionString));
        Assert.NotEqual(server, ServerProcessId());
    }

    /// <summary>After a restart of the machine the number in the stale file may belong to any other program.</summary>
    [Fact]
    public async Task Open_StaleFileNamesAnotherProgram_LeavesThatAloneAndStarts()
    {
        await using (var first = await OpenAsync())
            await WriteAsync(first.ConnectionString, 1);
        var data = Path.Combine(Folder, "data");
        File.WriteAllText(Path.Combine(data, "postmaster.pid"), $"{Environment.ProcessId}\n{data}\n1700000000\n5432\n\n127.0.0.1\n\nready\n");

        await using var database = await OpenAsync();
        Assert.Equal(1, await CountAsync(database.ConnectionString));
        Assert.Contains("kept from the last run", Said[1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task CtrlC_AtTheTerminal_ReachesTheServiceBeforeTheDatabase()
    {
        await using var owner = StartOwner();
        await owner.ReadAsync("OPEN");
        var server = ServerProcessId();

        owner.InterruptGroup();

        Assert.Equal("still there", await owner.ReadAsync("CLOSING"));
        await owner.ReadAsync("CLOSED");
        await AssertEndedAsync(server);
    }

    /// <summary>An ended process is listed until its parent, the machine's first process, has taken note.</summary>
    private static async Task AssertEndedAsync(int processId)
    {
        for (var attempt = 0; attempt < 100 && Process.GetProcesses().Any(process => process.Id == processId); attempt++)
            await Task.Delay(50);
        Assert.DoesNotContain(Process.GetProcesses(), process => process.Id == processId);
    }

    private int ServerProcessId() =>
        int.Parse(File.ReadLines(Path.Combine(Folder, "data", "postmaster.pid")).First(), CultureInfo.InvariantCulture);
}
