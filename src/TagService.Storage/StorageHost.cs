using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Npgsql;
using TagService.Storage.Attachments;
using TagService.Storage.Bulk;
using TagService.Storage.Changes;
using TagService.Storage.Claims;
using TagService.Storage.Corrections;
using TagService.Storage.Fitting;
using TagService.Storage.Idempotency;
using TagService.Storage.Measurements;
using TagService.Storage.Numbering;
using TagService.Storage.Recommendations;
using TagService.Storage.Registers;
using TagService.Storage.Schema;

namespace TagService.Storage;

/// <summary>Composition of the storage side.</summary>
public static class StorageHost
{
    /// <summary>Oldest supported PostgreSQL major.</summary>
    public const int OldestServerMajor = 15;

    /// <summary>Table in which EF Core notes the migrations it has run.</summary>
    internal const string HistoryTable = "schema_history";

    /// <summary>Registers the context, the one data source all connections come from, migration, bulk writing and claims.</summary>
    /// <param name="services">The host's services.</param>
    /// <param name="connectionString">Npgsql connection string. Nothing is opened here.</param>
    public static IServiceCollection AddTagServiceStorage(this IServiceCollection services, string connectionString)
    {
        services.TryAddSingleton(TimeProvider.System);
        services.AddSingleton(_ => CreateDataSource(connectionString));
        services.AddDbContextPool<TagServiceDbContext>((provider, options) =>
        {
            Configure(options, provider.GetRequiredService<NpgsqlDataSource>());
            options.AddInterceptors(new ChangeWriter(provider.GetRequiredService<TimeProvider>()));
        });
        services.AddScoped<TransactedWork>();
        services.AddScoped<ReservedIdentities>();
        services.AddSingleton<DatabaseStateReader>();
        services.AddSingleton<DatabaseMigrator>();
        services.AddSingleton<AssetBulkWriter>();
        services.AddSingleton<DemoFleetWriter>();
        services.AddSingleton<RecommendationClaims>();
        services.AddSingleton<RangeMeasurementWriter>();
        services.AddSingleton<DueCalibrations>();
        services.AddSingleton<IdentityNumbers>();
        services.AddSingleton<AttachmentBatchWriter>();
        services.AddSingleton<RegisterSyncs>();
        services.AddSingleton<RegisterSyncWriter>();
        services.AddSingleton<RegisterCorrections>();
        services.AddSingleton<RegisterTagFollower>();
        services.AddLogging();
        services.AddSingleton<RecommendationContextSource>();
        return services;
    }

    /// <summary>The pool behind EF Core, COPY and claims.</summary>
    internal static NpgsqlDataSource CreateDataSource(string connectionString)
    {
        var settings = new NpgsqlConnectionStringBuilder(connectionString);
        if (string.IsNullOrEmpty(settings.ApplicationName))
            settings.ApplicationName = "TagService";
        return new NpgsqlDataSourceBuilder(settings.ConnectionString).Build();
    }

    /// <summary>Options of the context: the same at run time, in tests and when migrations are made.</summary>
    internal static void Configure(DbContextOptionsBuilder options, NpgsqlDataSource dataSource) => options
        .UseNpgsql(dataSource, npgsql => npgsql
            .SetPostgresVersion(OldestServerMajor, 0)
            .MigrationsHistoryTable(HistoryTable)
            // Somebody waits for the answer: two short retries for a dropped connection, then 503.
            .EnableRetryOnFailure(maxRetryCount: 2, maxRetryDelay: TimeSpan.FromSeconds(1), errorCodesToAdd: null))
        .UseSnakeCaseNamingConvention();
}
