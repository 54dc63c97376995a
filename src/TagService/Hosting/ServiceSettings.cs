using Npgsql;
using Serilog.Events;
using TagService.Api.Http.Ndjson;
using TagService.LocalDatabase;
using TagService.Worker;

namespace TagService.Hosting;

/// <summary>The configuration, read once and checked: a bad value is named with its setting and what is accepted.</summary>
public sealed record ServiceSettings
{
    /// <summary>Where the service listens unless told otherwise: this machine only.</summary>
    public const string DefaultUrl = "http://127.0.0.1:5080";

    /// <summary>What this process does.</summary>
    public required Roles Roles { get; init; }

    /// <summary>Where it listens.</summary>
    public required IReadOnlyList<string> Urls { get; init; }

    /// <summary>The outside database; null means the private one.</summary>
    public required string? ConnectionString { get; init; }

    /// <summary>Settings of the private database.</summary>
    public required PrivateDatabaseOptions LocalDatabase { get; init; }

    /// <summary>Settings of the jobs.</summary>
    public required WorkerOptions Worker { get; init; }

    /// <summary>Room for answers of batches whose callers do not read yet, in MB of temporary files.</summary>
    public required int BatchSpoolMegabytes { get; init; }

    /// <summary>Log lines as JSON instead of text?</summary>
    public required bool JsonLog { get; init; }

    /// <summary>Least level logged.</summary>
    public required LogEventLevel LogLevel { get; init; }

    /// <summary>Reads and checks all settings.</summary>
    /// <exception cref="StartupProblemException">A value is not accepted.</exception>
    public static ServiceSettings Read(IConfiguration configuration)
    {
        var values = new SettingReader(configuration);
        return new()
        {
            Roles = ReadRoles(values),
            Urls = ReadUrls(values),
            ConnectionString = ReadConnectionString(values),
            LocalDatabase = new()
            {
                Folder = values.Text("LocalDatabase:Folder"),
                BinFolder = values.Text("LocalDatabase:BinFolder"),
                DownloadFrom = values.Text("LocalDatabase:DownloadFrom") ?? new PrivateDatabaseOptions().DownloadFrom,
                Port = values.Number("LocalDatabase:Port", 1, 65_535),
            },
            Worker = new()
            {
                Poll = TimeSpan.FromSeconds(values.Number("Worker:PollSeconds", 1, 3600) ?? 10),
                BatchSize = values.Number("Worker:BatchSize", 1, 10_000) ?? 200,
            },
            BatchSpoolMegabytes = values.Number("Batch:SpoolMegabytes", 0, 1_000_000) ?? BatchSpooling.UsualMegabytes,
            JsonLog = values.OneOf("Log:Format", "text", "json") == "json",
            LogLevel = Enum.Parse<LogEventLevel>(values.OneOf("Log:Level", "Information", "Debug", "Warning", "Error")),
        };
    }

    private static Roles ReadRoles(SettingReader values)
    {
        var text = values.Text("Roles") ?? "api,worker";
        var roles = Roles.None;
        foreach (var part in text.Split(',', StringSplitOptions.TrimEntries))
            roles |= part.ToLowerInvariant() switch
            {
                "api" => Roles.Api,
                "worker" => Roles.Worker,
                _ => throw SettingReader.Refuse("Roles", text, "api, worker or api,worker"),
            };
        return roles;
    }

    private static string[] ReadUrls(SettingReader values)
    {
        if (values.Text("Urls") is not { } text)
        {
            string[] ports = [.. PortsOnly(values, "http"), .. PortsOnly(values, "https")];
            return ports.Length > 0 ? ports : [DefaultUrl];
        }

        var all = text.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        return all.Length > 0 && all.All(IsAddress)
            ? all
            : throw SettingReader.Refuse("Urls", text, $"http or https addresses with a port from 0 to 65535, such as {DefaultUrl}");
    }

    // HTTP_PORTS and HTTPS_PORTS are set by container images: all of the container's addresses.
    private static IEnumerable<string> PortsOnly(SettingReader values, string scheme)
    {
        var name = $"{scheme.ToUpperInvariant()}_PORTS";
        foreach (var port in (values.Text(name) ?? "").Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
            yield return ushort.TryParse(port, out _)
                ? $"{scheme}://*:{port}"
                : throw SettingReader.Refuse(name, port, "port numbers from 0 to 65535");
    }

    // The web server's own parser is looser than it should be: it takes http://host:abc for a host name.
    private static bool IsAddress(string url)
    {
        var checkable = url.Replace("//*", "//any", StringComparison.Ordinal).Replace("//+", "//any", StringComparison.Ordinal);
        return Uri.TryCreate(checkable, UriKind.Absolute, out var uri)
            && uri.Scheme is "http" or "https"
            && uri.AbsolutePath == "/" && uri.Query.Length == 0;
    }

    private static string? ReadConnectionString(SettingReader values)
    {
        const string name = "ConnectionStrings:TagService";
        if (values.Text(name) is not { } text)
            return null;
        try
        {
            // The value is not repeated: it holds a password.
            return string.IsNullOrEmpty(new NpgsqlConnectionStringBuilder(text).Host)
                ? throw new StartupProblemException($"{name} names no host.", Example(name))
                : text;
        }
        catch (Exception e) when (e is ArgumentException or FormatException or InvalidCastException or OverflowException)
        {
            throw new StartupProblemException($"{name} is not an Npgsql connection string.", Example(name));
        }
    }

    private static string Example(string name) =>
        $"Write {name} like Host=db.example.org;Port=5432;Database=tagservice;Username=tagservice;Password=... or leave it out for the private database.";
}
