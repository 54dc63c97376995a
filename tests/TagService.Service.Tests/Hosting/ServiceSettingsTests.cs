using Microsoft.Extensions.Configuration;
using TagService.Hosting;
using TagService.LocalDatabase;

namespace TagService.Service.Tests.Hosting;

public sealed class ServiceSettingsTests
{
    [Fact]
    public void Read_NothingSet_ListensOnThisMachineOnlyWithBothRoles()
    {
        var settings = Read();
        Assert.Equal(["http://127.0.0.1:5080"], settings.Urls);
        Assert.Equal(Roles.Api | Roles.Worker, settings.Roles);
        Assert.Null(settings.ConnectionString);
    }

    [Theory]
    [InlineData("Roles", "api,wörker", "api, worker")]
    [InlineData("Roles", "api,", "api, worker")]
    [InlineData("Urls", "http://127.0.0.1:abc", "port from 0 to 65535")]
    [InlineData("Urls", "http://127.0.0.1:65536", "port from 0 to 65535")]
    [InlineData("Urls", "127.0.0.1:5080", "http or https")]
    [InlineData("Urls", "ftp://127.0.0.1:5080", "http or https")]
    [InlineData("Urls", "http://127.0.0.1:5080/base", "http or https")]
    [InlineData("Urls", ";", "http or https")]
    [InlineData("HTTP_PORTS", "80 80", "0 to 65535")]
    [InlineData("LocalDatabase:Port", "0", "1 to 65535")]
    [InlineData("Worker:PollSeconds", "-1", "1 to 3600")]
    [InlineData("Worker:BatchSize", "1e3", "1 to 10000")]
    [InlineData("Batch:SpoolMegabytes", "2 GB", "0 to 1000000")]
    [InlineData("Log:Format", "xml", "text, json")]
    [InlineData("Log:Level", "Loud", "Information, Debug, Warning, Error")]
    public void Read_BadValue_NamesSettingValueAndWhatIsAccepted(string name, string value, string accepted)
    {
        var problem = Assert.Throws<StartupProblemException>(() => Read((name, value)));
        Assert.Equal($"Setting {name} is \"{value}\".", problem.Problem);
        Assert.Contains(accepted, problem.Remedy, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Hst=db;Password=sesame-4711")]
    [InlineData("Host=db;Port=abc;Password=sesame-4711")]
    [InlineData("Database=x;Password=sesame-4711")]
    [InlineData("sesame-4711")]
    public void Read_BadConnectionString_NamesSettingAndKeepsThePassword(string value)
    {
        var problem = Assert.Throws<StartupProblemException>(() => Read(("ConnectionStrings:TagService", value)));
        Assert.StartsWith("ConnectionStrings:TagService ", problem.Problem, StringComparison.Ordinal);
        Assert.DoesNotContain("sesame-4711", problem.Problem + problem.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_GoodValues_AreTaken()
    {
        var settings = Read(
            ("Roles", "Worker"), ("Urls", "http://*:8080; https://[::1]:8443"), ("Worker:PollSeconds", "3"), ("Worker:BatchSize", "50"),
            ("Log:Format", "JSON"), ("Log:Level", "debug"), ("ConnectionStrings:TagService", "Host=db;Database=x"));
        Assert.Equal(Roles.Worker, settings.Roles);
        Assert.Equal(["http://*:8080", "https://[::1]:8443"], settings.Urls);
        Assert.Equal((TimeSpan.FromSeconds(3), 50), (settings.Worker.Poll, settings.Worker.BatchSize));
        Assert.True(settings.JsonLog);
        Assert.Equal("Debug", settings.LogLevel.ToString());
        Assert.Equal("Host=db;Database=x", settings.ConnectionString);
    }

    /// <summary>The container images of .NET set HTTP_PORTS (Microsoft documentation, "Default ASP.NET Core port changed to 8080").</summary>
    [Fact]
    public void Read_PortsOfAContainerImage_AreListenedOn() =>
        Assert.Equal(["http://*:8080", "http://*:8081"], Read(("HTTP_PORTS", "8080;8081")).Urls);

    private static ServiceSettings Read(params (string Name, string Value)[] values) => ServiceSettings.Read(
        new ConfigurationBuilder().AddInMemoryCollection(values.Select(v => KeyValuePair.Create(v.Name, (string?)v.Value))).Build());
}
