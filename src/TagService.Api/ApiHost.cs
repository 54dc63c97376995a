using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Hosting;
using TagService.Api.Features.Assets;
using TagService.Api.Features.Attachments;
using TagService.Api.Features.Calculations;
using TagService.Api.Features.Changes;
using TagService.Api.Features.Fitting;
using TagService.Api.Features.Health;
using TagService.Api.Features.Identities;
using TagService.Api.Features.Locations;
using TagService.Api.Features.NumberingRules;
using TagService.Api.Features.Problems;
using TagService.Api.Features.RangeMeasurements;
using TagService.Api.Features.ReadPoints;
using TagService.Api.Features.Recommendations;
using TagService.Api.Features.ReferenceTables;
using TagService.Api.Features.RegisterCorrections;
using TagService.Api.Features.RegisterSources;
using TagService.Api.Features.RegisterSyncs;
using TagService.Api.Features.TagBatches;
using TagService.Api.Features.TagClasses;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.Ndjson;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage.Changes;

namespace TagService.Api;

/// <summary>Composition of the HTTP side.</summary>
public static class ApiHost
{
    /// <summary>Registers what the endpoints need.</summary>
    public static IServiceCollection AddTagServiceApi(this IServiceCollection services)
    {
        services.ConfigureHttpJsonOptions(o => WireJson.Apply(o.SerializerOptions));
        services.AddServerLimits();
        services.AddProblems();
        services.AddSingleton<IReadinessCheck, DatabaseReadiness>();
        services.TryAddSingleton(new BatchSpooling(BatchSpooling.UsualMegabytes * 1_000_000L));
        services.AddScoped<OverlayStore>();
        services.AddScoped<IdentityChooser>();
        services.AddScoped<WorklistBuilder>();
        services.AddSingleton<RegisterSourceReader>();
        services.AddSingleton(p => new ConfiguredRegisterSources(
            p.GetRequiredService<RegisterSourceReader>(), p.GetRequiredService<IServiceScopeFactory>(), p.GetRequiredService<IConfiguration>(),
            p.GetRequiredService<IHostEnvironment>(), p.GetRequiredService<TimeProvider>()));
        services.AddScoped<PreviewMaker>();
        // Pages are rendered on the server only; no circuit, no script.
        services.AddRazorComponents();
        // Stays in this project: the generator that carries the XML comments into the document intercepts this very call, which must pass a lambda.
        services.AddOpenApi(options => ContractDocument.Configure(options));
        return services;
    }

    /// <summary>Maps all areas.</summary>
    public static void MapTagServiceApi(this WebApplication app)
    {
        app.UseProblems();
        app.Use(static (context, next) =>
        {
            // Reading changes nothing; what a changing request does is written down under the caller's name.
            if (!HttpMethods.IsGet(context.Request.Method))
                ChangeOrigin.Actor = context.User.Identity?.Name ?? ChangeOrigin.UnnamedCaller;
            return next(context);
        });
        app.MapContractDocument();
        app.MapHealth();
        app.MapProblems();
        app.MapRecommendations();
        app.MapCalculations();
        app.MapIdentities();
        app.MapTagClasses();
        app.MapRangeMeasurements();
        app.MapReferenceTables();
        app.MapAssets();
        app.MapLocations();
        app.MapReadPoints();
        app.MapTagBatches();
        app.MapNumberingRules();
        app.MapChanges();
        app.MapAttachments();
        app.MapFitting();
        app.MapRegisterSources();
        app.MapRegisterSyncs();
        app.MapRegisterCorrections();

    }
}
