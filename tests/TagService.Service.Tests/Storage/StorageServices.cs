using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using TagService.Domain.Recommendations;
using TagService.Service.Tests.Database;
using TagService.Storage;
using TagService.Storage.Bulk;
using TagService.Storage.Schema;

namespace TagService.Service.Tests.Storage;

/// <summary>The storage services on a database of their own, and short forms of what the tests do with it.</summary>
internal sealed class StorageServices : IAsyncDisposable
{
    private readonly ServiceProvider _provider;

    private StorageServices(ServiceProvider provider, string connectionString)
    {
        _provider = provider;
        ConnectionString = connectionString;
    }

    public string ConnectionString { get; }

    public NpgsqlDataSource DataSource => Get<NpgsqlDataSource>();

    public static async Task<StorageServices> CreateEmptyAsync(TestDatabase server, string name)
    {
        var connectionString = await server.CreateDatabaseAsync(name);
        return On(connectionString);
    }

    public static async Task<StorageServices> CreateMigratedAsync(TestDatabase server, string name)
    {
        var storage = await CreateEmptyAsync(server, name);
        await storage.Get<DatabaseMigrator>().MigrateAsync(CancellationToken.None);
        return storage;
    }

    /// <summary>A second process on the same database.</summary>
    public static StorageServices On(string connectionString) =>
        new(new ServiceCollection().AddTagServiceStorage(connectionString).BuildServiceProvider(), connectionString);

    public static AssetRecord Asset(string assetId, string category = "ladder") => new() { AssetId = assetId, Category = category };

    public T Get<T>()
        where T : notnull => _provider.GetRequiredService<T>();

    public Task<T> WithContextAsync<T>(Func<TagServiceDbContext, Task<T>> use) => WithScopedAsync(use);

    public async Task<T> WithScopedAsync<TService, T>(Func<TService, Task<T>> use)
        where TService : notnull
    {
        await using var scope = _provider.CreateAsyncScope();
        return await use(scope.ServiceProvider.GetRequiredService<TService>());
    }

    /// <summary>Adds or changes assets, all or none of them.</summary>
    public async Task CopyAsync(IEnumerable<AssetRecord> records)
    {
        await using var connection = await DataSource.OpenConnectionAsync();
        await using var transaction = await connection.BeginTransactionAsync();
        await Get<AssetBulkWriter>().WriteAsync(transaction, [.. records.Select(r => new AssetToLoad(r, null))], AssetSources.Push, CancellationToken.None);
        await transaction.CommitAsync();
    }

    public async Task<object?> ScalarAsync(string sql)
    {
        await using var command = DataSource.CreateCommand(sql);
        return await command.ExecuteScalarAsync();
    }

    public async Task<long> CountAsync(string table) => (long)(await ScalarAsync($"SELECT count(*) FROM {table}"))!;

    public ValueTask DisposeAsync() => _provider.DisposeAsync();
}
