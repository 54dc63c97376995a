using TagService.Service.Tests.Storage;
using TagService.Storage.Numbering;
using TagService.Storage.Tables;

namespace TagService.Service.Tests.Numbering;

/// <summary>Rules and numbers without HTTP.</summary>
internal static class NumberingStore
{
    // The company prefix of the examples of the GS1 EPC Tag Data Standard.
    private const string Prefix = "9521141";

    public static Task GivenRuleAsync(this StorageServices storage, string id, long next = 1, long last = 1_000_000, bool isDefault = false) => storage.WithContextAsync(c =>
    {
        c.Add(new NumberingRuleRow
        {
            Id = id, Scheme = "giai-96", CompanyPrefix = Prefix, FirstNumber = next, NextNumber = next, LastNumber = last, IsDefault = isDefault,
            UpdatedAt = DateTimeOffset.UnixEpoch,
        });
        return c.SaveChangesAsync();
    });

    public static Task<NumberOutcome> TakeAsync(this StorageServices storage, string? ruleId, int count = 1) =>
        storage.Get<IdentityNumbers>().TakeAsync(ruleId, count, CancellationToken.None);

    public static async Task<long> TakeOneAsync(this StorageServices storage, string? ruleId) =>
        Assert.IsType<NumberOutcome.Taken>(await storage.TakeAsync(ruleId)).First;
}
