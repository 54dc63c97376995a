using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Http.Resilience;
using Microsoft.Extensions.Options;
using TagService.Intake.Registers.Files;
using TagService.Intake.Registers.Http;

namespace TagService.Intake.Registers;

/// <summary>Sets up the reading of registers.</summary>
public static class RegisterReading
{
    /// <summary>Adds <see cref="RegisterReaders"/>, the client for HTTP sources and the options of both kinds.</summary>
    /// <param name="services">The host's services.</param>
    /// <param name="configuration">The host's configuration; sections <c>Registers:Http</c> and <c>Registers:Files</c>.</param>
    public static IServiceCollection AddRegisterReading(this IServiceCollection services, IConfiguration configuration)
    {
        services.AddOptions<RegisterOutboundOptions>().Bind(configuration.GetSection(RegisterOutboundOptions.Section));
        services.AddOptions<RegisterFileOptions>().Bind(configuration.GetSection(RegisterFileOptions.Section));
        services.TryAddSingleton(TimeProvider.System);
        services.TryAddSingleton<RegisterReaders>();
        services.AddHttpClient(RegisterRequests.ClientName, client =>
            {
                // The pipeline and the body have limits of their own.
                client.Timeout = Timeout.InfiniteTimeSpan;
                client.DefaultRequestVersion = System.Net.HttpVersion.Version11;
            })
            .ConfigurePrimaryHttpMessageHandler(provider =>
                GuardedConnection.Handler(provider.GetRequiredService<IOptions<RegisterOutboundOptions>>().Value))
            // Addresses and headers of registers have no place in a log.
            .RemoveAllLoggers()
            .AddResilienceHandler("registers", RegisterResilience.Configure)
            .SelectPipelineByAuthority();
        return services;
    }
}
