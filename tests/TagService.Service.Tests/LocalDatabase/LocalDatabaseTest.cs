using Npgsql;
using TagService.LocalDatabase;

namespace TagService.Service.Tests.LocalDatabase;

/// <summary>What the tests of the private database share: a folder, and short ways to open it and to ask it.</summary>
public abstract class LocalDatabaseTest : IAsyncLifetime, IDisposable
{
    /// <summary>Nobody listens on the discard port (RFC 863): a repository that cannot be reached.</summary>
    protected const string UnreachableRepository = "http://127.0.0.1:9";

    private readonly TemporaryFolder temporary = new();

    protected string Folder => temporary.Below("database");

    protected IList<string> Said { get; } = [];

    /// <summary>The folder of the PostgreSQL programs.</summary>
    protected string Bin { get; private set; } = "";

    protected PrivateDatabaseOptions Options => new() { Folder = Folder, DownloadFrom = UnreachableRepository, FindInstalled = () => [Bin] };

    /// <summary>As on a machine where no PostgreSQL server is installed.</summary>
    protected PrivateDatabaseOptions NothingInstalled => Options with { FindInstalled = () => [] };

    public async Task InitializeAsync() => Bin = await ServerPrograms.BinFolderAsync();

    public Task DisposeAsync() => Task.CompletedTask;

    public void Dispose()
    {
        temporary.Dispose();
        GC.SuppressFinalize(this);
    }

    protected string Below(string name) => temporary.Below(name);

    private protected OwnerProcess StartOwner(string? account = null) => OwnerProcess.Start(Folder, Bin, account);

    protected Task<PrivateDatabase> OpenAsync(PrivateDatabaseOptions? options = null) =>
        PrivateDatabase.OpenAsync(options ?? Options, Said.Add, CancellationToken.None);

    protected Task<StartupProblemException> ProblemAsync(PrivateDatabaseOptions? options = null) =>
        Assert.ThrowsAsync<StartupProblemException>(() => OpenAsync(options));

    protected static async Task<T> AskAsync<T>(string connectionString, string sql)
    {
        await using var connection = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(connectionString) { Pooling = false }.ConnectionString);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        return (T)(await command.ExecuteScalarAsync())!;
    }

    protected static Task<int> WriteAsync(string connectionString, int value) =>
        AskAsync<int>(connectionString, $"create table if not exists kept (n int); insert into kept values ({value}) returning n");

    protected static Task<long> CountAsync(string connectionString) => AskAsync<long>(connectionString, "select count(*) from kept");
}
