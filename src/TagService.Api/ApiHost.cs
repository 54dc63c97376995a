using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;

namespace TagService.Api;

/// <summary>Composition of the HTTP side.</summary>
public static class ApiHost
{
    /// <summary>Registers what the endpoints need.</summary>
    public static IServiceCollection AddTagServiceApi(this IServiceCollection services) => services.AddOpenApi();

    /// <summary>Maps all areas.</summary>
    public static void MapTagServiceApi(this WebApplication app) => app.MapOpenApi();
}
