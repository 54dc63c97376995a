using Npgsql;

namespace TagService.Service.Tests.Database;

[Collection(TestDatabase.Collection)]
public sealed class TestDatabaseTests(TestDatabase database)
{
    [Fact]
    public async Task CreateDatabase_CalledTwiceWithOneName_GivesAnEmptyDatabaseEachTime()
    {
        for (var round = 0; round < 2; round++)
        {
            await using var source = NpgsqlDataSource.Create(await database.CreateDatabaseAsync("fresh \"odd\" name"));
            await using var create = source.CreateCommand("create table only_once (n int)");
            await create.ExecuteNonQueryAsync(); // fails if the table is already there
        }
    }

    [Fact]
    public async Task CreateDatabase_FromTemplate_CopiesIt()
    {
        await using (var template = NpgsqlDataSource.Create(await database.CreateDatabaseAsync("template_source")))
        await using (var fill = template.CreateCommand("create table kept (n int); insert into kept values (42)"))
            await fill.ExecuteNonQueryAsync();

        await using var copy = NpgsqlDataSource.Create(await database.CreateDatabaseAsync("template_copy", "template_source"));
        await using var read = copy.CreateCommand("select n from kept");
        Assert.Equal(42, await read.ExecuteScalarAsync());
    }

    /// <summary>PostgreSQL 15 is the oldest supported major version; the tests must not run on an older one.</summary>
    [Fact]
    public async Task Server_Version_IsASupportedOne()
    {
        await using var source = NpgsqlDataSource.Create(await database.CreateDatabaseAsync("version"));
        await using var connection = await source.OpenConnectionAsync();
        Assert.InRange(connection.PostgreSqlVersion.Major, 15, 99);
    }
}
