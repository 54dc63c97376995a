using TagService.Api.Http.Ndjson;

namespace TagService.Hosting;

/// <summary>One setting for the help text and the check of option names.</summary>
/// <param name="Name">Its configuration key.</param>
/// <param name="Meaning">What it does, what it accepts, its default.</param>
internal sealed record KnownSetting(string Name, string Meaning);

/// <summary>All settings a person may give; the same names in appsettings.json, environment (with __ for :) and command line.</summary>
internal static class KnownSettings
{
    public static IReadOnlyList<KnownSetting> All { get; } =
    [
        new("Roles", "What this process does: api, worker or both (api,worker; the default)."),
        new("Urls", $"Where it listens, several with ; between (default {ServiceSettings.DefaultUrl}: this machine only)."),
        new("ConnectionStrings:TagService", "A PostgreSQL database of your own, as an Npgsql connection string; without it a private one is started."),
        new("LocalDatabase:Folder", "Folder of the private database's data."),
        new("LocalDatabase:BinFolder", "Folder of the PostgreSQL server programs to use for it."),
        new("LocalDatabase:DownloadFrom", "Maven repository to download those programs from when none are installed."),
        new("LocalDatabase:Port", "Port of the private database on 127.0.0.1 (default: a free one)."),
        new("Worker:PollSeconds", "Seconds between two looks for work, 1 to 3600 (default 10)."),
        new("Worker:BatchSize", "Assets claimed at a time, 1 to 10000 (default 200)."),
        new("Batch:SpoolMegabytes", $"Room for answers of batches whose callers send on without reading, in MB of the temporary folder (default {BatchSpooling.UsualMegabytes}; 0: none)."),
        new("Registers:Http:Credentials:<name>:...", "Credentials for registers, each with the one origin it is sent to; see README.md."),
        new("Registers:Http:AllowedNetworks:<n>", "Private networks that registers may be read from, for example 10.20.0.0/16."),
        new("Registers:Http:AllowedHttpHosts:<n>", "Hosts that may be read by plain http."),
        new("Registers:Http:AllowedRedirectHosts:<n>", "Hosts that a register may redirect to."),
        new("Registers:Files:Folders:<name>", "Folders that register files are read from."),
        new("Registers:Sources:<name>", "JSON file of a register source: the body of PUT /v1/register-sources/{name}; read at the start, read-only then."),
        new("Log:Format", "text for people (the default) or json, one object a line."),
        new("Log:Level", "Least level shown: Debug, Information (the default), Warning or Error."),
    ];

    // What the host and the web server read themselves.
    private static readonly string[] HostNames = ["environment", "applicationName", "contentRoot", "AllowedHosts"];

    public static string Names { get; } = string.Join(", ", All.Select(s => "--" + s.Name));

    public static bool Accepts(string name) =>
        All.Any(s => s.Name.Equals(name, StringComparison.OrdinalIgnoreCase))
        || HostNames.Contains(name, StringComparer.OrdinalIgnoreCase)
        || name.StartsWith("Registers:", StringComparison.OrdinalIgnoreCase)
        || name.StartsWith("Kestrel:", StringComparison.OrdinalIgnoreCase);
}
