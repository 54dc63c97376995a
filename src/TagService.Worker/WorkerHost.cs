using Microsoft.Extensions.DependencyInjection;
using TagService.Worker.Measurements;
using TagService.Worker.Recommendations;
using TagService.Worker.Registers;

namespace TagService.Worker;

/// <summary>Composition of the background jobs.</summary>
public static class WorkerHost
{
    /// <summary>Registers the jobs; they start with the host. Needs the storage services and the reading of registers.</summary>
    public static IServiceCollection AddTagServiceWorker(this IServiceCollection services, WorkerOptions options) => services
        .AddSingleton(options)
        .AddHostedService<SyncRegistersJob>()
        .AddHostedService<FollowRegisterTags>()
        .AddHostedService<RecommendAssetsJob>()
        .AddHostedService<CalibrateRangesJob>();
}
