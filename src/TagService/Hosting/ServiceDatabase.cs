using Npgsql;
using TagService.LocalDatabase;

namespace TagService.Hosting;

/// <summary>The database this process works on: the outside one, or the private one, which lives as long as this object.</summary>
internal sealed class ServiceDatabase : IAsyncDisposable
{
    private readonly PrivateDatabase? _private;

    private ServiceDatabase(PrivateDatabase? own, string connectionString, string description)
    {
        _private = own;
        ConnectionString = connectionString;
        Description = description;
    }

    public string ConnectionString { get; }

    /// <summary>For people; without credentials.</summary>
    public string Description { get; }

    /// <summary>Only the private database is migrated and filled without being asked.</summary>
    public bool IsPrivate => _private is not null;

    public static async Task<ServiceDatabase> OpenAsync(ServiceSettings settings, Action<string> say, CancellationToken cancellationToken)
    {
        if (settings.ConnectionString is { } outside)
        {
            var parts = new NpgsqlConnectionStringBuilder(outside);
            return new(null, outside, $"{parts.Database ?? parts.Username} on {parts.Host}:{parts.Port}");
        }

        var own = await PrivateDatabase.OpenAsync(settings.LocalDatabase, say, cancellationToken);
        return new(own, own.ConnectionString, own.Description);
    }

    public ValueTask DisposeAsync() => _private?.DisposeAsync() ?? ValueTask.CompletedTask;
}
