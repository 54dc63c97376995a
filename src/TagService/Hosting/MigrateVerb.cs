using TagService.Storage;

namespace TagService.Hosting;

/// <summary>The verb migrate: brings the configured database, or the private one, up to this program's version.</summary>
internal static class MigrateVerb
{
    public static async Task RunAsync(string[] options, Action<string> say, CancellationToken cancellationToken)
    {
        var settings = ServiceSettings.Read(ServiceHost.CreateBuilder(options).Configuration);
        await using var database = await ServiceDatabase.OpenAsync(settings, say, cancellationToken);
        await using var services = new ServiceCollection().AddTagServiceStorage(database.ConnectionString).BuildServiceProvider();
        await DatabasePreparation.MigrateAsync(services, say, cancellationToken);
        say($"The database is up to date: {database.Description}.");
    }
}
