namespace TagService.Service.Tests.LocalDatabase;

/// <summary>What can go wrong because of accounts. They need root, to start processes under another account.</summary>
public sealed class AccountTests : LocalDatabaseTest
{
    [RootFact]
    public async Task Open_AsRootInAFolderTheServerCannotReach_SaysSo()
    {
        TemporaryFolder.SetMode(Directory.CreateDirectory(Below("only-for-root")).FullName, "700");
        var problem = await ProblemAsync(Options with { Folder = Below("only-for-root/database") });
        Assert.Contains("cannot reach", problem.Problem, StringComparison.Ordinal);
        Assert.Contains("/var/lib/tagservice", problem.Remedy, StringComparison.Ordinal);
    }

    [RootFact]
    public async Task Open_FolderOfAnotherAccount_IsRefused()
    {
        await using (await OpenAsync())
        {
        }

        await using var owner = StartOwner("nobody");
        Assert.Contains(Folder, await owner.ReadAsync("PROBLEM"), StringComparison.Ordinal);
        Assert.Contains("Make it writable for", await owner.ReadAsync("REMEDY"), StringComparison.Ordinal);
        Assert.Equal(1, await owner.CloseAsync());
    }

    [RootFact]
    public async Task Open_ByRootOnTheFolderOfAUser_LeavesItUsableForTheUser()
    {
        await using (var user = StartOwner("nobody"))
        {
            await WriteAsync(await user.ReadAsync("OPEN"), 1);
            await user.CloseAsync();
        }

        await using (var database = await OpenAsync())
            await WriteAsync(database.ConnectionString, 2);

        await using var again = StartOwner("nobody");
        Assert.Equal(2, await CountAsync(await again.ReadAsync("OPEN")));
        Assert.Equal(0, await again.CloseAsync());
    }

    [RootFact]
    public async Task Open_AsRoot_WritesThroughNoLinkOfAnotherAccount()
    {
        await using (var user = StartOwner("nobody"))
            await user.ReadAsync("OPEN");
        File.WriteAllText(Below("precious"), "root's own");
        File.Delete(Path.Combine(Folder, "owner.pid"));
        File.CreateSymbolicLink(Path.Combine(Folder, "owner.pid"), Below("precious"));

        Assert.Contains("owner.pid is a link", (await ProblemAsync()).Problem, StringComparison.Ordinal);
        Assert.Equal("root's own", File.ReadAllText(Below("precious")));
    }

    [RootFact]
    public async Task Open_AsRoot_GivesTheServersAccountNothingItNeedNotWriteTo()
    {
        await using var database = await OpenAsync();
        var owners = new Dictionary<string, string>();
        foreach (var entry in Directory.EnumerateFileSystemEntries(Folder).Append(Folder))
        {
            using var stat = System.Diagnostics.Process.Start(new System.Diagnostics.ProcessStartInfo("stat", ["-c", "%U", entry]) { RedirectStandardOutput = true })!;
            owners[Path.GetFileName(entry)] = (await stat.StandardOutput.ReadToEndAsync()).Trim();
        }

        Assert.Equal(["data", "password", "server.log"], owners.Where(owner => owner.Value != "root").Select(owner => owner.Key).Order());
    }

    [RootFact]
    public async Task Open_HomeDoesNotExist_SaysSo()
    {
        await using var owner = OwnerProcess.Start("-", Bin, "nobody", "/nonexistent");
        Assert.Contains("/nonexistent/", await owner.ReadAsync("PROBLEM"), StringComparison.Ordinal);
        Assert.Contains("LocalDatabase:Folder", await owner.ReadAsync("REMEDY"), StringComparison.Ordinal);
        Assert.Equal(1, await owner.CloseAsync());
    }

    [RootFact]
    public async Task Open_NormalUserWithoutAFolderConfigured_UsesTheHomeFolder()
    {
        var home = Directory.CreateDirectory(Below("home")).FullName;
        TemporaryFolder.SetMode(home, "777");
        await using var owner = OwnerProcess.Start("-", Bin, "nobody", home);
        await owner.ReadAsync("OPEN");
        Assert.True(File.Exists(Path.Combine(home, ".local/share/TagService/data/PG_VERSION")));
        Assert.Equal(0, await owner.CloseAsync());
    }
}

/// <summary>A test that starts processes under other accounts; without root it is reported as skipped.</summary>
public sealed class RootFactAttribute : FactAttribute
{
    public RootFactAttribute()
    {
        if (OperatingSystem.IsWindows() || !Environment.IsPrivilegedProcess)
            Skip = "Needs root, to start a process under another account.";
    }
}
