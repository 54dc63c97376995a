using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;

namespace TagService.Api.Http;

/// <summary>Limits of the server itself. The limit of one operation is smaller and stands with it.</summary>
internal static class ServerLimits
{
    // Above the limit of a single record, so that the answer that names that limit can be sent and read
    // before the connection ends; batch operations set their own.
    private const int MaxBodyBytes = 32 * 1024 * 1024;
    private const int MaxHeaderBytes = 32 * 1024;
    private const int MaxHeaderCount = 100;

    public static IServiceCollection AddServerLimits(this IServiceCollection services) =>
        services.Configure<KestrelServerOptions>(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = MaxBodyBytes;
            kestrel.Limits.MaxRequestHeadersTotalSize = MaxHeaderBytes;
            kestrel.Limits.MaxRequestHeaderCount = MaxHeaderCount;
            kestrel.Limits.RequestHeadersTimeout = TimeSpan.FromSeconds(15);
        });
}
