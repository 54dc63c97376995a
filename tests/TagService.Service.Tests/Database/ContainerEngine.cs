using System.Net.Sockets;
using System.Text.Json;

namespace TagService.Service.Tests.Database;

/// <summary>
/// Testcontainers asks for version 1.44 of the engine's interface, which engines before Docker 25 refuse, and reads
/// another one only from its settings. So that a plain <c>dotnet test</c> works with an older engine, this asks the engine
/// first, and hands its version on; what the user has set stays.
/// </summary>
internal static class ContainerEngine
{
    private const string VersionVariable = "DOCKER_API_VERSION";
    private static readonly Version AskedFor = new(1, 44);

    public static bool UserDecidedOnReaper =>
        Environment.GetEnvironmentVariable("TESTCONTAINERS_RYUK_DISABLED") is { Length: > 0 } || UserSettings.Contains("ryuk.disabled", StringComparison.Ordinal);

    private static string UserSettings
    {
        get
        {
            var file = Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".testcontainers.properties");
            return File.Exists(file) ? File.ReadAllText(file) : "";
        }
    }

    /// <summary>Must run before anything of Testcontainers is touched: it reads its settings once.</summary>
    public static async Task AdaptToEngineAsync()
    {
        if (Environment.GetEnvironmentVariable(VersionVariable) is { Length: > 0 } || UserSettings.Contains("docker.api.version", StringComparison.Ordinal))
            return;
        if (await NewestVersionAsync() is { } newest && newest < AskedFor)
            Environment.SetEnvironmentVariable(VersionVariable, newest.ToString());
    }

    private static async Task<Version?> NewestVersionAsync()
    {
        foreach (var endpoint in Endpoints())
        {
            try
            {
                using var client = Client(endpoint);
                using var answer = JsonDocument.Parse(await client.GetStringAsync(new Uri("/version", UriKind.Relative)));
                if (Version.TryParse(answer.RootElement.GetProperty("ApiVersion").GetString(), out var version))
                    return version;
            }
            catch (Exception exception) when (exception is HttpRequestException or TaskCanceledException or JsonException or KeyNotFoundException)
            {
                // Nobody there; try the next.
            }
        }

        return null;
    }

    /// <summary>Where engines listen. Encrypted ones and Windows pipes are left to Testcontainers: they are recent engines.</summary>
    private static IEnumerable<Uri> Endpoints()
    {
        if (Uri.TryCreate(Environment.GetEnvironmentVariable("DOCKER_HOST"), UriKind.Absolute, out var configured) && configured.Scheme is "unix" or "tcp")
            yield return configured;
        if (OperatingSystem.IsWindows())
            yield break;

        var home = Environment.GetFolderPath(Environment.SpecialFolder.UserProfile);
        yield return new Uri("unix:///var/run/docker.sock");
        yield return new Uri($"unix://{home}/.docker/run/docker.sock");
        if (Environment.GetEnvironmentVariable("XDG_RUNTIME_DIR") is { Length: > 0 } runtime)
            yield return new Uri($"unix://{runtime}/docker.sock");
    }

    private static HttpClient Client(Uri endpoint)
    {
        var timeout = TimeSpan.FromSeconds(5);
        if (endpoint.Scheme == "tcp")
            return new HttpClient { BaseAddress = new Uri($"http://{endpoint.Authority}"), Timeout = timeout };

        var handler = new SocketsHttpHandler
        {
            ConnectCallback = async (_, cancellationToken) =>
            {
                var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
                await socket.ConnectAsync(new UnixDomainSocketEndPoint(endpoint.LocalPath), cancellationToken);
                return new NetworkStream(socket, ownsSocket: true);
            },
        };
        return new HttpClient(handler) { BaseAddress = new Uri("http://localhost"), Timeout = timeout };
    }
}
