using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;

namespace TagService.Api;

/// <summary>Composition of the HTTP side.</summary>
public static class ApiHost
{
    /// <summary>Registers what the endpoints need.</summary>
    public static IServiceCollection AddTagServiceApi(this IServiceCollection services)
    {
        services.ConfigureHttpJsonOptions(o => WireJson.Apply(o.SerializerOptions));
        services.AddProblems();
        services.AddOpenApi();
        return services;
    }

    /// <summary>Maps all areas.</summary>
    public static void MapTagServiceApi(this WebApplication app)
    {
        app.UseProblems();
        app.MapOpenApi();
    }
}
