using System.Reflection;
using Serilog;
using TagService.Api;
using TagService.Api.Features.Health;
using TagService.Api.Http.Ndjson;
using TagService.Api.Http.Problems;
using TagService.Intake.Registers;
using TagService.LocalDatabase;
using TagService.Storage;
using TagService.Worker;

namespace TagService.Hosting;

/// <summary>Composition: which services and endpoints the roles of this process need.</summary>
public static class ServiceHost
{
    /// <summary>
    /// Is the program being run by the build to write the OpenAPI document? Then it must not touch a database.
    /// The tool loads this assembly into its own process (Microsoft documentation, "Generate OpenAPI documents at build time").
    /// </summary>
    public static bool IsDocumentBuild { get; } = Assembly.GetEntryAssembly()?.GetName().Name == "GetDocument.Insider";

    /// <summary>Configuration from appsettings.json beside the program, environment and options, in this order.</summary>
    /// <exception cref="StartupProblemException">appsettings.json does not read.</exception>
    public static WebApplicationBuilder CreateBuilder(string[] options)
    {
        try
        {
            // Not the current folder: the same settings apply wherever the program is called from.
            return WebApplication.CreateBuilder(new WebApplicationOptions { Args = options, ContentRootPath = AppContext.BaseDirectory });
        }
        catch (InvalidDataException e)
        {
            throw new StartupProblemException($"{e.Message} {e.InnerException?.Message}", "Put the named settings file right.");
        }
    }

    /// <summary>The whole service on a given database, ready to start.</summary>
    public static WebApplication Build(WebApplicationBuilder builder, ServiceSettings settings, string connectionString)
    {
        builder.WebHost.UseUrls([.. settings.Urls]);
        builder.Services.AddSerilog((services, log) => ServiceLog.Configure(log, settings).ReadFrom.Services(services));
        builder.Services.AddSingleton(settings);
        builder.Services.AddSingleton(new BatchSpooling(settings.BatchSpoolMegabytes * 1_000_000L));
        builder.Services.AddTagServiceStorage(connectionString);
        builder.Services.AddRegisterReading(builder.Configuration);
        builder.Services.AddTagServiceApi();
        // The build, which only writes the document, has no database.
        if (!IsDocumentBuild)
            builder.Services.AddHostedService<ConfiguredSourcesStart>();
        builder.Services.AddHostedService<RecommendationContextPoll>();
        if (settings.Roles.HasFlag(Roles.Worker))
            builder.Services.AddTagServiceWorker(settings.Worker);

        var app = builder.Build();
        app.UseRequestLog();
        if (settings.Roles.HasFlag(Roles.Api))
            app.MapTagServiceApi();
        else
            MapProbes(app);
        return app;
    }

    // A worker alone is watched by the same probes as the rest.
    private static void MapProbes(WebApplication app)
    {
        app.UseProblems();
        app.MapHealth();
    }
}
