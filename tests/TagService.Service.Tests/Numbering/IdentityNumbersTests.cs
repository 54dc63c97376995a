using TagService.Service.Tests.Database;
using TagService.Service.Tests.Storage;
using TagService.Storage.Numbering;

namespace TagService.Service.Tests.Numbering;

[Collection(TestDatabase.Collection)]
public sealed class IdentityNumbersTests(TestDatabase server)
{
    [Fact]
    public async Task Take_FromARule_GivesItsNumbersAndTheirBits()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "numbers_plain");
        await storage.GivenRuleAsync("tools", next: 5678);
        var taken = Assert.IsType<NumberOutcome.Taken>(await storage.TakeAsync("tools", 3));
        Assert.Equal([5678, 5679, 5680], taken.Numbers);
        // GS1 EPC Tag Data Standard 2.3, annex E.3 (read), with filter 0 instead of 3.
        Assert.Equal("3416451FD40000000000162E", taken.Encoded.First().Hex);
        Assert.Equal(3, taken.Encoded.Select(e => e.Content.Key).Distinct().Count());
        Assert.Equal(5681, await storage.TakeOneAsync("tools"));
    }

    [Fact]
    public async Task Take_WithoutRule_TakesTheDefaultOneOrSaysThatThereIsNone()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "numbers_default");
        await storage.GivenRuleAsync("a", next: 10);
        Assert.Contains("isDefault", Assert.IsType<NumberOutcome.NoRule>(await storage.TakeAsync(null)).Sentence, StringComparison.Ordinal);
        await storage.GivenRuleAsync("b", next: 2_000_000, last: 3_000_000, isDefault: true);
        Assert.Equal(2_000_000, await storage.TakeOneAsync(null));
        Assert.Contains("nowhere", Assert.IsType<NumberOutcome.NoRule>(await storage.TakeAsync("nowhere")).Sentence, StringComparison.Ordinal);
        Assert.Equal(10, await storage.TakeOneAsync("a"));
    }

    [Fact]
    public async Task Take_MoreThanAreLeft_TakesNoneAndSaysHowManyAre()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "numbers_end");
        await storage.GivenRuleAsync("short", next: 7, last: 9);
        var refused = Assert.IsType<NumberOutcome.Exhausted>(await storage.TakeAsync("short", 4));
        Assert.Equal(("short", 4, 3L), (refused.RuleId, refused.Asked, refused.Left));
        Assert.Contains("3 numbers left", refused.Sentence, StringComparison.Ordinal);
        Assert.Equal([7, 8, 9], Assert.IsType<NumberOutcome.Taken>(await storage.TakeAsync("short", 3)).Numbers);
        Assert.Equal(0, Assert.IsType<NumberOutcome.Exhausted>(await storage.TakeAsync("short")).Left);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(IdentityNumbers.MaxCount + 1)]
    public async Task Take_CountOutOfRange_Throws(int count)
    {
        await using var storage = StorageServices.On("Host=localhost;Database=never_opened");
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(() => storage.TakeAsync("a", count));
    }

    [Fact]
    public async Task Take_ManyByTwoProcesses_NeverRepeatsNorLeavesAGap()
    {
        await using var one = await StorageServices.CreateMigratedAsync(server, "numbers_many");
        await using var two = StorageServices.On(one.ConnectionString);
        await one.GivenRuleAsync("tools", isDefault: true);
        var taken = await Task.WhenAll(Enumerable.Range(0, 12).Select(worker => Task.Run(async () =>
        {
            var random = new Random(worker);
            var numbers = new List<long>();
            for (var i = 0; i < 50; i++)
            {
                var outcome = await (worker % 2 == 0 ? one : two).TakeAsync(random.Next(2) == 0 ? "tools" : null, random.Next(1, 6));
                numbers.AddRange(Assert.IsType<NumberOutcome.Taken>(outcome).Numbers);
            }

            Assert.Equal(numbers.Order(), numbers);
            return numbers;
        })));
        var all = taken.SelectMany(t => t).Order().ToList();
        Assert.Equal(Enumerable.Range(1, all.Count).Select(i => (long)i), all);
    }

    // A crash of the server must not undo what somebody was told, even where it is set not to wait for its disk.
    [Theory]
    [InlineData("off", "on")]
    [InlineData("local", "on")]
    [InlineData("remote_apply", "remote_apply")]
    public async Task Take_ServerThatDoesNotWaitForItsDisk_WaitsForThis(string set, string expected)
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, $"numbers_{set}");
        await storage.GivenRuleAsync("tools");
        await storage.ScalarAsync(
            $"""
            CREATE TABLE seen (setting text);
            CREATE FUNCTION see() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN INSERT INTO seen VALUES (current_setting('synchronous_commit')); RETURN NULL; END $$;
            CREATE CONSTRAINT TRIGGER see AFTER UPDATE ON numbering_rules DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION see();
            ALTER DATABASE numbers_{set} SET synchronous_commit = {set};
            """);
        await using var later = StorageServices.On($"{storage.ConnectionString};Application Name=later");
        await later.TakeOneAsync("tools");
        Assert.Equal(expected, await later.ScalarAsync("SELECT setting FROM seen"));
        Assert.Equal(set, await later.ScalarAsync("SHOW synchronous_commit"));
    }
}
