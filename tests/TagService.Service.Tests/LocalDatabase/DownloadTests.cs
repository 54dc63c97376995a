namespace TagService.Service.Tests.LocalDatabase;

/// <summary>
/// Machines without a PostgreSQL server. The repository is a stub on this machine that serves the installed programs, so
/// these tests show the path from the version list to the running server, not the content of the published archives.
/// </summary>
public sealed class DownloadTests : LocalDatabaseTest
{
    [Fact]
    public async Task Open_NothingInstalled_DownloadsOnceAndNeedsNoNetworkAfterwards()
    {
        string[] versions = ["15.1.0", "17.1.0", "17.2.0", "18.0.0"];
        await using (var repository = await RepositoryStub.StartAsync(Bin, versions))
        {
            await using var database = await OpenAsync(NothingInstalled with { DownloadFrom = repository.Address + "/maven2" });
            await WriteAsync(database.ConnectionString, 1);

            // The newest of the default major version, and its checksum.
            Assert.Contains(repository.Asked, path => path.EndsWith("-17.2.0.jar", StringComparison.Ordinal));
            Assert.Contains(repository.Asked, path => path.EndsWith("-17.2.0.jar.sha256", StringComparison.Ordinal));
            Assert.Contains("downloading PostgreSQL 17", Said[0], StringComparison.Ordinal);
            Assert.Contains(Path.Combine(Folder, "programs"), Said[1], StringComparison.Ordinal);
        }

        await using var again = await OpenAsync(NothingInstalled);
        Assert.Equal(1, await CountAsync(again.ConnectionString));
        Assert.Equal(3, Said.Count);
    }

    [Fact]
    public async Task Open_ServerWasRemovedSinceTheLastRun_DownloadsTheMajorVersionOfTheData()
    {
        string dataMajor;
        await using (var first = await OpenAsync())
        {
            await WriteAsync(first.ConnectionString, 1);
            dataMajor = (await File.ReadAllTextAsync(Path.Combine(Folder, "data", "PG_VERSION"))).Trim();
        }

        await using var repository = await RepositoryStub.StartAsync(Bin, [$"{dataMajor}.3.0", "99.0.0"]);
        await using var database = await OpenAsync(NothingInstalled with { DownloadFrom = repository.Address + "/maven2" });
        Assert.Equal(1, await CountAsync(database.ConnectionString));
        Assert.Contains(repository.Asked, path => path.EndsWith($"-{dataMajor}.3.0.jar", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Open_NothingInstalledAndRepositoryUnreachable_SaysWhatToInstall()
    {
        var problem = await ProblemAsync(NothingInstalled);
        Assert.Contains("No PostgreSQL server is installed", problem.Problem, StringComparison.Ordinal);
        Assert.Contains(UnreachableRepository, problem.Problem, StringComparison.Ordinal);
        Assert.Contains("apt-get install postgresql", problem.Remedy, StringComparison.Ordinal);
        Assert.Contains("LocalDatabase:DownloadFrom", problem.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Open_DownloadIsAltered_IsRefused()
    {
        await using var repository = await RepositoryStub.StartAsync(Bin, ["17.2.0"], wrongChecksum: true);
        var problem = await ProblemAsync(NothingInstalled with { DownloadFrom = repository.Address + "/maven2" });
        Assert.Contains("SHA-256", problem.Problem, StringComparison.Ordinal);
        Assert.Empty(Directory.EnumerateFiles(Folder, "postgres", SearchOption.AllDirectories));
    }

    [Fact]
    public async Task Open_RepositoryHasNoSuchVersion_SaysWhichItHas()
    {
        await using var repository = await RepositoryStub.StartAsync(Bin, ["14.1.0"]);
        var problem = await ProblemAsync(NothingInstalled with { DownloadFrom = repository.Address + "/maven2" });
        Assert.Contains("14", problem.Problem, StringComparison.Ordinal);
        Assert.Contains("apt-get install postgresql", problem.Remedy, StringComparison.Ordinal);
    }
}
