using TagService.Hosting;
using TagService.LocalDatabase;

namespace TagService.Service.Tests.Hosting;

public sealed class CommandLineTests
{
    [Fact]
    public void Split_VerbAndOptions_AreSeparated()
    {
        var (verb, options) = CommandLine.Split(["migrate", "--Urls", "http://x:1", "--connectionstrings:tagservice=Host=db;Database=a=b"]);
        Assert.Equal("migrate", verb);
        Assert.Equal(["--Urls", "http://x:1", "--connectionstrings:tagservice=Host=db;Database=a=b"], options);
        Assert.Null(CommandLine.Split(["--Roles", "api"]).Verb);
        Assert.Equal("help", CommandLine.Split(["--help"]).Verb);
    }

    [Theory]
    [InlineData("There is no option --Rules.", "--Roles", "--Rules", "api")]
    [InlineData("\"migrate\" is not an option.", "--name value", "--Roles", "api", "migrate")]
    [InlineData("\"-r\" is not an option.", "--name value", "migrate", "-r")]
    [InlineData("Option --Roles has no value.", "--Roles=value", "--Roles")]
    public void Split_WhatIsNeither_IsRefusedWithARemedy(string problem, string remedyHolds, params string[] args)
    {
        var refused = Assert.Throws<StartupProblemException>(() => CommandLine.Split(args));
        Assert.Equal(problem, refused.Problem);
        Assert.Contains(remedyHolds, refused.Remedy, StringComparison.Ordinal);
    }
}
