using System.Net;
using System.Net.Sockets;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.LocalDatabase;
using TagService.Service.Tests.Storage;

namespace TagService.Service.Tests.Hosting;

/// <summary>The program from the outside: what it prints, how it ends, what it leaves in the database.</summary>
[Collection(TestDatabase.Collection)]
public sealed class ProgramTests(TestDatabase server)
{
    private const string Option = "--ConnectionStrings:TagService";
    private const string FreePort = "--Urls=http://127.0.0.1:0";

    [Fact]
    public async Task Run_OutsideDatabaseWithoutTables_SaysToMigrateAndLeavesItAlone()
    {
        await using var storage = await StorageServices.CreateEmptyAsync(server, "program_empty");
        var (exitCode, _, errors) = await ServiceProcess.RunAsync(Option, storage.ConnectionString, FreePort);
        Assert.Equal(1, exitCode);
        Assert.Equal(2, errors.Length);
        Assert.Contains("migrate", errors[1], StringComparison.Ordinal);
        Assert.Equal(0, await storage.CountAsync("information_schema.tables WHERE table_schema = 'public'"));
    }

    [Fact]
    public async Task Run_OutsideDatabase_IsMigratedAndFilledByVerbsOnly()
    {
        await using var storage = await StorageServices.CreateEmptyAsync(server, "program_outside");
        var migrated = await ServiceProcess.RunAsync("migrate", Option, storage.ConnectionString);
        Assert.Equal((0, 0), (migrated.ExitCode, migrated.Errors.Length));

        await using (var service = ServiceProcess.Start(Option, storage.ConnectionString, FreePort))
        {
            var address = (await service.ReadUntilAsync("  Address ")).Split(' ')[^1];
            await service.ReadUntilAsync("curl -s " + address);
            Assert.Contains(service.Output, l => l.Contains("none yet", StringComparison.Ordinal));
            Assert.Contains(service.Output, l => l.EndsWith(address + "/swagger", StringComparison.Ordinal));
            Assert.Contains(service.Output, l => l.EndsWith(address + "/health/ready", StringComparison.Ordinal));
            Assert.Contains(service.Output, l => l.Contains("Database  program_outside on ", StringComparison.Ordinal));
            service.Signal("TERM");
            Assert.Equal(0, (await service.WaitAsync()).ExitCode);
        }

        Assert.Equal(0, await storage.CountAsync("assets"));
        var first = await ServiceProcess.RunAsync("demo", Option, storage.ConnectionString);
        Assert.Equal(0, first.ExitCode);
        Assert.Contains("invented", first.Output[^1], StringComparison.Ordinal);
        var loaded = await storage.CountAsync("assets");
        Assert.InRange(loaded, 2300, 2500);
        Assert.Equal(1, await storage.CountAsync($"demo_fleets WHERE name = 'Ellsmoor Water' AND asset_count = {loaded}"));

        var second = await ServiceProcess.RunAsync("demo", Option, storage.ConnectionString);
        Assert.Equal((1, 2), (second.ExitCode, second.Errors.Length));
        Assert.Equal(loaded, await storage.CountAsync("assets"));
    }

    [Fact]
    public async Task Run_PortTaken_SaysSoInTwoLines()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "program_port");
        using var other = new TcpListener(IPAddress.Loopback, 0);
        other.Start();
        var url = $"http://127.0.0.1:{((IPEndPoint)other.LocalEndpoint).Port}";
        var (exitCode, output, errors) = await ServiceProcess.RunAsync(Option, storage.ConnectionString, "--Urls", url);
        Assert.Equal((1, 2), (exitCode, errors.Length));
        Assert.Contains(url, errors[0], StringComparison.Ordinal);
        Assert.Contains("--Urls", errors[1], StringComparison.Ordinal);
        Assert.DoesNotContain(output, l => l.Contains("   at ", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("There is no verb \"demos\".", "demos")]
    [InlineData("Setting Roles is \"clerk\".", "--Roles", "clerk")]
    [InlineData("The database cannot be used: Connection refused", Option, "Host=127.0.0.1;Port=1;Database=x;Password=sesame-4711")]
    [InlineData("The database cannot be used: Connection refused", "migrate", Option, "Host=127.0.0.1;Port=1;Database=x;Password=sesame-4711")]
    public async Task Run_Problem_IsTwoPlainLinesAndExitCode1(string problem, params string[] args)
    {
        var (exitCode, output, errors) = await ServiceProcess.RunAsync(args);
        Assert.Equal(1, exitCode);
        Assert.Equal(2, errors.Length);
        Assert.Equal(problem, errors[0]);
        Assert.DoesNotContain("sesame-4711", string.Join('\n', [.. errors, .. output]), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_NoSettings_FillsThePrivateDatabaseOnceAndStopsItAtTheEnd()
    {
        using var folder = new TemporaryFolder();
        string[] args = ["--LocalDatabase:Folder", folder.Below("database"), FreePort];
        foreach (var run in (string[])["first", "second"])
        {
            await using var service = ServiceProcess.Start(args);
            var assets = await service.ReadUntilAsync("  Assets ");
            Assert.Matches("2[345][0-9]{2} of Ellsmoor Water, an invented demo fleet", assets);
            Assert.Equal(run == "first", service.Output.Any(l => l.StartsWith("Demo fleet loaded", StringComparison.Ordinal)));
            service.Signal("INT");
            var (exitCode, errors) = await service.WaitAsync();
            Assert.Equal((0, 0), (exitCode, errors.Length));
        }

        Assert.False(File.Exists(Path.Combine(folder.Below("database"), "data", "postmaster.pid")));
    }
}
