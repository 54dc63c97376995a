using Npgsql;
using TagService.Api.Features.RegisterSources;
using TagService.LocalDatabase;

namespace TagService.Hosting;

/// <summary>Before anything else runs: the register sources of the configuration are stored. A bad one stops the start.</summary>
internal sealed class ConfiguredSourcesStart(ConfiguredRegisterSources sources, ILogger<ConfiguredSourcesStart> logger) : IHostedService
{
    public async Task StartAsync(CancellationToken cancellationToken)
    {
        try
        {
            if (await sources.StoreAsync(cancellationToken) is { Count: > 0 } names)
                logger.LogInformation("Register sources of the configuration: {Sources}", string.Join(", ", names));
        }
        catch (RegisterConfigurationException e)
        {
            throw new StartupProblemException(
                e.Message, $"Put the named files right; each is the body of PUT /v1/register-sources/{{name}}. The setting is {ConfiguredRegisterSources.Section}:<name>.");
        }
        catch (Exception e) when (!sources.Any && (e is NpgsqlException || e.InnerException is NpgsqlException))
        {
            // Nothing to store; the probes tell what is the matter with the database.
            logger.LogWarning("Whether register sources left the configuration was not looked at: {Reason}", e.Message);
        }
    }

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
}
