using DotNet.Testcontainers.Configurations;
using Testcontainers.PostgreSql;

namespace TagService.Service.Tests.Database;

/// <summary>Starts PostgreSQL in a container if that is possible on this machine.</summary>
internal static class ContainerServer
{
    private const string ImageVariable = "TAGSERVICE_TEST_POSTGRES_IMAGE";
    private const string DefaultImage = "postgres:15-alpine";

    // Pulling the image on a slow line is part of it.
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);

    /// <summary>The started container with the image's name, or null with the reason why not.</summary>
    public static async Task<(PostgreSqlContainer? Container, string Message)> TryStartAsync()
    {
        await ContainerEngine.AdaptToEngineAsync();
        if (TestcontainersSettings.OS.DockerEndpointAuthConfig is null)
            return (null, "no container engine answers");

        var image = Environment.GetEnvironmentVariable(ImageVariable) is { Length: > 0 } configured ? configured : DefaultImage;
        var reaperIsOurChoice = TestcontainersSettings.ResourceReaperEnabled && !ContainerEngine.UserDecidedOnReaper;
        var (container, problem) = await StartAsync(image);
        if (container is null && reaperIsOurChoice)
        {
            // Where only this one image is at hand, the image of the helper that clears containers away after a crash cannot
            // be pulled. The fixture clears its container away itself; only a killed test run leaves one behind.
            TestcontainersSettings.ResourceReaperEnabled = false;
            (container, problem) = await StartAsync(image);
        }

        return container is null ? (null, $"the image {image} did not start: {problem}") : (container, image);
    }

    private static async Task<(PostgreSqlContainer? Container, string Problem)> StartAsync(string image)
    {
        PostgreSqlContainer? container = null;
        try
        {
            using var timeout = new CancellationTokenSource(Patience);
            container = new PostgreSqlBuilder(image).Build();
            await container.StartAsync(timeout.Token);
            return (container, "");
        }
        catch (Exception exception)
        {
            // Pull refused, no network, no space, time over: in every case the tests can go on with the local server.
            if (container is not null)
                await container.DisposeAsync();
            return (null, exception.GetBaseException().Message.Trim().ReplaceLineEndings(" "));
        }
    }
}
