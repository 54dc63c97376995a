using System.Globalization;
using System.Reflection;
using System.Text;
using Microsoft.EntityFrameworkCore;
using TagService.Storage;

namespace TagService.Hosting;

/// <summary>Where to look, printed once the service runs.</summary>
internal sealed record Welcome
{
    private const string Example = """{"category":"centrifugal pump","reading":{"requiredRangeM":2}}""";

    public static string Version { get; } =
        typeof(Welcome).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion.Split('+')[0];

    public required IReadOnlyList<string> Addresses { get; init; }

    public required Roles Roles { get; init; }

    public required string Database { get; init; }

    public required string Fleet { get; init; }

    public string Text
    {
        get
        {
            var text = new StringBuilder();
            text.AppendLine().AppendLine(CultureInfo.InvariantCulture, $"TagService {Version} is running.");
            var root = Addresses[0].Replace("[::]", "localhost", StringComparison.Ordinal).Replace("0.0.0.0", "localhost", StringComparison.Ordinal);
            Line("Address", string.Join(", ", Addresses));
            if (Roles.HasFlag(Roles.Api))
                Line("Try it", $"{root}/swagger");
            Line("Health", $"{root}/health/ready");
            Line("Database", Database);
            Line("Assets", Fleet);
            Line("Worker", Roles.HasFlag(Roles.Worker) ? "keeps a recommendation for every asset" : "not in this process");
            Line("Stop", "Ctrl+C");
            if (Roles.HasFlag(Roles.Api))
                text.AppendLine("Ask for a tag class:")
                    .AppendLine(CultureInfo.InvariantCulture, $"  curl -s {root}/v1/recommendations -H 'Content-Type: application/json' -d '{Example}'");
            return text.AppendLine().ToString();

            void Line(string name, string value) => text.AppendLine(CultureInfo.InvariantCulture, $"  {name,-9} {value}");
        }
    }

    public static async Task<Welcome> ReadAsync(
        WebApplication app, ServiceDatabase database, ServiceSettings settings, CancellationToken cancellationToken)
    {
        await using var scope = app.Services.CreateAsyncScope();
        var context = scope.ServiceProvider.GetRequiredService<TagServiceDbContext>();
        var demo = await context.DemoFleets.AsNoTracking().OrderBy(f => f.Name).FirstOrDefaultAsync(cancellationToken);
        var any = await context.Assets.AnyAsync(cancellationToken);
        return new()
        {
            Addresses = [.. app.Urls],
            Roles = settings.Roles,
            Database = database.Description,
            Fleet = (demo, any) switch
            {
                (not null, true) => string.Create(
                    CultureInfo.InvariantCulture, $"{demo.AssetCount} of {demo.Name}, an invented demo fleet (seed {demo.Seed}, loaded {demo.LoadedAt:yyyy-MM-dd})"),
                (_, true) => "your own",
                _ => "none yet; the verb demo loads an invented fleet",
            },
        };
    }
}
