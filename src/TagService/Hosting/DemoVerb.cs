using TagService.Demo;
using TagService.LocalDatabase;
using TagService.Storage;

namespace TagService.Hosting;

/// <summary>The verb demo: loads the invented fleet into the configured database, which must have no assets.</summary>
internal static class DemoVerb
{
    public static async Task RunAsync(string[] options, Action<string> say, CancellationToken cancellationToken)
    {
        var settings = ServiceSettings.Read(ServiceHost.CreateBuilder(options).Configuration);
        await using var database = await ServiceDatabase.OpenAsync(settings, say, cancellationToken);
        await using var services = new ServiceCollection().AddTagServiceStorage(database.ConnectionString).BuildServiceProvider();
        await DatabasePreparation.PrepareAsync(services, database, say, cancellationToken);
        var loaded = await DemoLoader.LoadIfEmptyAsync(services, cancellationToken)
            ?? throw new StartupProblemException(
                $"The database has assets already: {database.Description}. The demo fleet was not loaded.",
                "Use an empty database for the demo; invented assets are never mixed with others.");
        say($"Demo fleet loaded: {loaded} assets of {DemoFleet.Name}, all invented.");
    }
}
