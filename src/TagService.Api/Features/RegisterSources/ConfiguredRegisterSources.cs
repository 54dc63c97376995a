using System.Text;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Intake.Registers;
using TagService.Storage;
using TagService.Storage.Changes;
using TagService.Storage.Idempotency;

namespace TagService.Api.Features.RegisterSources;

/// <summary>A register source of the operator's configuration that cannot be used.</summary>
/// <param name="message">File, place, value and what would be accepted, one wrong place a line.</param>
public sealed class RegisterConfigurationException(string message) : Exception(message);

/// <summary>
/// Stores the sources of the operator's configuration: <c>Registers:Sources:name</c> is the path of a JSON file with the body of PUT
/// /v1/register-sources/{name}. Relative paths begin at the program's own folder. A source that is no longer there is disabled and can be
/// changed through the interface again.
/// </summary>
public sealed class ConfiguredRegisterSources
{
    /// <summary>Name of the configuration section.</summary>
    public const string Section = "Registers:Sources";

    private const string Actor = "configuration";
    private const int Attempts = 5;

    private static readonly StoredAnswer Kept = new(200, "");

    private readonly RegisterSourceReader _reader;
    private readonly IServiceScopeFactory _scopes;
    private readonly IConfiguration _configuration;
    private readonly IHostEnvironment _environment;
    private readonly TimeProvider _clock;

    internal ConfiguredRegisterSources(
        RegisterSourceReader reader, IServiceScopeFactory scopes, IConfiguration configuration, IHostEnvironment environment, TimeProvider clock) =>
        (_reader, _scopes, _configuration, _environment, _clock) = (reader, scopes, configuration, environment, clock);

    /// <summary>Is any source configured?</summary>
    public bool Any => _configuration.GetSection(Section).GetChildren().Any();

    /// <summary>Checks all files first, then stores all sources or none.</summary>
    /// <returns>Names of the sources that are configured.</returns>
    /// <exception cref="RegisterConfigurationException">A file cannot be used; nothing was stored.</exception>
    public async Task<IReadOnlyList<string>> StoreAsync(CancellationToken cancellationToken)
    {
        var faults = new List<string>();
        var sources = new Dictionary<string, (RegisterSourceRequest Sent, RegisterSource Source)>(StringComparer.Ordinal);
        foreach (var entry in _configuration.GetSection(Section).GetChildren())
        {
            if (await ReadAsync(entry.Key, entry.Value, faults, cancellationToken) is { } read)
                sources.Add(entry.Key, read);
        }

        if (faults.Count > 0)
            throw new RegisterConfigurationException(string.Join('\n', faults));
        ChangeOrigin.Actor = Actor;
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                await using var scope = _scopes.CreateAsyncScope();
                await scope.ServiceProvider.GetRequiredService<TransactedWork>().RunAsync(
                    null,
                    async (database, ct) =>
                    {
                        await WriteAsync(database, sources, ct);
                        return Kept;
                    },
                    cancellationToken);
                return [.. sources.Keys];
            }
            catch (DbUpdateException) when (attempt < Attempts)
            {
                // Another process that starts with the same configuration was quicker.
            }
        }
    }

    private async Task WriteAsync(
        TagServiceDbContext database, Dictionary<string, (RegisterSourceRequest Sent, RegisterSource Source)> sources, CancellationToken cancellationToken)
    {
        string[] names = [.. sources.Keys];
        var stored = await database.RegisterSources.Where(s => s.IsFromConfiguration || names.Contains(s.Name)).ToDictionaryAsync(s => s.Name, StringComparer.Ordinal, cancellationToken);
        foreach (var (name, (sent, source)) in sources.OrderBy(s => s.Key, StringComparer.Ordinal))
            await RegisterSourceStore.WriteAsync(database, stored.GetValueOrDefault(name), name, sent, source, isFromConfiguration: true, _clock, cancellationToken);
        foreach (var vanished in stored.Values.Where(s => !sources.ContainsKey(s.Name)))
            (vanished.IsFromConfiguration, vanished.IsEnabled, vanished.UpdatedAt) = (false, false, StoredTime.Now(_clock));
        await database.SaveChangesAsync(cancellationToken);
    }

    private async Task<(RegisterSourceRequest Sent, RegisterSource Source)?> ReadAsync(string name, string? path, List<string> faults, CancellationToken cancellationToken)
    {
        var setting = $"{Section}:{name}";
        if (!ItemId.IsUsable(name, null, out var unusable) || (unusable = RegisterSourceStore.NameRefusal(name)) is not null)
        {
            faults.Add($"{setting}: {unusable.Detail}");
            return null;
        }

        if (string.IsNullOrWhiteSpace(path))
        {
            faults.Add($"{setting} is empty. Accepted: the path of a JSON file with the body of PUT /v1/register-sources/{name}.");
            return null;
        }

        byte[] json;
        try
        {
            json = await File.ReadAllBytesAsync(Path.GetFullPath(path, _environment.ContentRootPath), cancellationToken);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            faults.Add($"{setting}: the file {path} cannot be read: {e.Message}");
            return null;
        }

        var body = JsonBody.Read<RegisterSourceRequest>(json.AsSpan(), JsonReadOptions.Default);
        if (!body.IsRead)
            return Fault(body.Problem);
        if (body.Value.Name is { } other && other != name)
            return Fault(new(ProblemTypes.InvalidFields, "", [new("#/name", other, "The name in the file is another than that of the setting.", name)]));
        var (source, problem) = _reader.Read(body.Value);
        return source is null ? Fault(problem!) : (body.Value, source);

        (RegisterSourceRequest, RegisterSource)? Fault(ApiProblem problem)
        {
            faults.AddRange(problem.Errors is { Count: > 0 } errors ? errors.Select(e => $"{setting}: {path}: {Line(e)}") : [$"{setting}: {path}: {problem.Detail}"]);
            return null;
        }
    }

    private static string Line(ProblemError error)
    {
        var line = new StringBuilder(error.Pointer);
        if (error.Value is { } value)
            line.Append(": ").Append(value);
        line.Append(": ").Append(error.Detail);
        if (error.Accepted is { } accepted)
            line.Append(" Accepted: ").Append(accepted).Append(accepted.EndsWith('?') ? "" : ".");
        return line.ToString();
    }
}
