using TagService.LocalDatabase;
using TagService.Storage;
using TagService.Storage.Schema;

namespace TagService.Hosting;

/// <summary>What happens to the database before the service runs on it.</summary>
internal static class DatabasePreparation
{
    /// <summary>The private database is migrated; an outside one is only looked at.</summary>
    public static Task PrepareAsync(IServiceProvider services, ServiceDatabase database, Action<string> say, CancellationToken cancellationToken) =>
        database.IsPrivate ? MigrateAsync(services, say, cancellationToken) : RequireUsableAsync(services, say, cancellationToken);

    /// <summary>Runs pending migrations and says which.</summary>
    public static async Task MigrateAsync(IServiceProvider services, Action<string> say, CancellationToken cancellationToken)
    {
        await RequireServerAsync(services, cancellationToken);
        var ran = await services.GetRequiredService<DatabaseMigrator>().MigrateAsync(cancellationToken);
        if (ran.Count > 0)
            say($"Database migrated: {string.Join(", ", ran)}.");
        await RequireUsableAsync(services, say, cancellationToken);
    }

    /// <summary>Refuses a database on which this program cannot work.</summary>
    public static async Task RequireUsableAsync(IServiceProvider services, Action<string> say, CancellationToken cancellationToken)
    {
        var state = await RequireServerAsync(services, cancellationToken);
        if (!state.IsUsable)
            throw new StartupProblemException(
                state.Explanation,
                "Run the verb migrate once with the same connection string (a database from outside is never changed by itself), then start again.");
        if (state.Condition == DatabaseCondition.Newer)
            say($"Warning: {state.Explanation}");
    }

    private static async Task<DatabaseState> RequireServerAsync(IServiceProvider services, CancellationToken cancellationToken)
    {
        var state = await services.GetRequiredService<DatabaseStateReader>().ReadAsync(cancellationToken);
        return state.Condition switch
        {
            DatabaseCondition.Unreachable => throw new StartupProblemException(
                state.Explanation, "Check that the server runs and that ConnectionStrings:TagService names its host, port, database, user and password."),
            DatabaseCondition.UnsupportedServer => throw new StartupProblemException(
                state.Explanation, $"Use a server of PostgreSQL {StorageHost.OldestServerMajor} or later."),
            _ => state,
        };
    }
}
