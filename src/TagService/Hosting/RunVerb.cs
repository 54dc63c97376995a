using System.Net.Sockets;
using TagService.Demo;
using TagService.LocalDatabase;

namespace TagService.Hosting;

/// <summary>No verb: runs the service until it is told to stop.</summary>
internal static class RunVerb
{
    public static async Task RunAsync(string[] options, CancellationToken stop)
    {
        var builder = ServiceHost.CreateBuilder(options);
        if (ServiceHost.IsDocumentBuild)
        {
            await RunForDocumentAsync(builder);
            return;
        }

        var settings = ServiceSettings.Read(builder.Configuration);
        await using var console = new StartConsole(settings);
        await using var database = await ServiceDatabase.OpenAsync(settings, console.Say, stop);
        await using var app = ServiceHost.Build(builder, settings, database.ConnectionString);
        await DatabasePreparation.PrepareAsync(app.Services, database, console.Say, stop);
        if (database.IsPrivate && await DemoLoader.LoadIfEmptyAsync(app.Services, stop) is { } loaded)
            console.Say($"Demo fleet loaded: {loaded} assets of {DemoFleet.Name}, all invented.");

        app.Lifetime.ApplicationStopping.Register(() => console.Say("Stopping: requests and jobs end first, then the database."));
        await StartAsync(app, settings, stop);
        console.Welcome(await Welcome.ReadAsync(app, database, settings, stop));
        await app.WaitForShutdownAsync(stop);
    }

    private static async Task StartAsync(WebApplication app, ServiceSettings settings, CancellationToken stop)
    {
        try
        {
            await app.StartAsync(stop);
        }
        catch (Exception e) when (e is IOException or SocketException)
        {
            throw new StartupProblemException(
                $"The service cannot listen on {string.Join(" and ", settings.Urls)}: {e.Message}",
                "Stop the program that uses the address (perhaps TagService runs already), or choose another: --Urls http://127.0.0.1:5081");
        }
    }

    // The tool replaces the server and leaves out the jobs; nothing here may need a database.
    private static async Task RunForDocumentAsync(WebApplicationBuilder builder)
    {
        builder.Configuration["Roles"] = "api";
        await using var app = ServiceHost.Build(builder, ServiceSettings.Read(builder.Configuration), "Host=localhost");
        await app.RunAsync();
    }
}
