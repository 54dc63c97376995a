using Microsoft.EntityFrameworkCore;
using TagService.Storage;
using TagService.Storage.Bulk;

namespace TagService.Demo;

/// <summary>Puts the invented fleet into a database that has no assets.</summary>
internal static class DemoLoader
{
    /// <returns>Assets loaded; null when there are assets already and nothing was done.</returns>
    public static async Task<int?> LoadIfEmptyAsync(IServiceProvider services, CancellationToken cancellationToken)
    {
        await using (var scope = services.CreateAsyncScope())
            if (await scope.ServiceProvider.GetRequiredService<TagServiceDbContext>().Assets.AnyAsync(cancellationToken))
                return null;
        var fleet = DemoFleet.Generate();
        var loaded = await services.GetRequiredService<DemoFleetWriter>()
            .LoadAsync(DemoFleet.Name, DemoFleet.DefaultSeed, DemoFleet.Version, fleet, cancellationToken);
        return loaded ? fleet.Count : null;
    }
}
