using System.Reflection;
using System.Runtime.CompilerServices;
using TagService.Service.Tests.Storage;
using TagService.Storage.Changes;
using TagService.Storage.Idempotency;
using TagService.Storage.Tables;

namespace TagService.Service.Tests.Changes;

/// <summary>Every table is either audited or stands here with the reason why not.</summary>
public sealed class AuditedTablesTests
{
    // What people change.
    private static readonly Type[] Audited = [typeof(AssetRow), typeof(TagClassOverlayRow), typeof(LocationRow), typeof(ReadPointRow), typeof(TagBatchRow), typeof(NumberingRuleRow), typeof(AttachmentRow), typeof(ReservedIdentityRow), typeof(RegisterSourceRow)];

    private static readonly Dictionary<Type, string> NotAudited = new()
    {
        [typeof(RecommendationDueRow)] = "marks for the worker",
        [typeof(AssetRecommendationRow)] = "computed",
        [typeof(DemoFleetRow)] = "written once by the program",
        [typeof(RangeMeasurementRow)] = "added, never changed; those of attachments follow the attachment, whose change holds the check",
        [typeof(RangeMeasurementBatchRow)] = "added, never changed",
        [typeof(RangeCalibrationRow)] = "computed",
        [typeof(RangeCalibrationDueRow)] = "says what is to be computed",
        [typeof(LocationNameRow)] = "follows the location, whose change holds name and aliases",
        [typeof(ReadPointNameRow)] = "follows the read point, whose change holds name and aliases",
        [typeof(TagRow)] = "numbers of identities; what people say of a tag stands in its attachments",
        [typeof(RegisterSyncRow)] = "the runs' own book",
        [typeof(RejectedRowRow)] = "added, never changed",
        [typeof(RegisterRowRow)] = "follows the runs",
        [typeof(RegisterSyncAssetRow)] = "follows the runs",
        [typeof(ChangeRow)] = "the trail itself",
        [typeof(IdempotentRequestRow)] = "added, never changed",
    };

    [Fact]
    public async Task Model_EveryTable_IsAuditedOrSaysWhyNot()
    {
        await using var storage = StorageServices.On("Host=localhost;Database=never_opened");
        var tables = await storage.WithContextAsync(c => Task.FromResult(c.Model.GetEntityTypes().Select(t => t.ClrType).ToHashSet()));
        Assert.Equal(tables.OrderBy(t => t.Name), Audited.Concat(NotAudited.Keys).OrderBy(t => t.Name));
        Assert.All(Audited, t => Assert.True(t.IsAssignableTo(typeof(IAudited)), t.Name));
        Assert.All(NotAudited.Keys, t => Assert.False(t.IsAssignableTo(typeof(IAudited)), t.Name));
    }

    [Fact]
    public void Kinds_OfAuditedTables_AreListedOnce()
    {
        var kinds = Audited.Select(t => ((IAudited)RuntimeHelpers.GetUninitializedObject(t)).AuditKind).ToList();
        Assert.Equal(AuditKinds.All, kinds.Order(StringComparer.Ordinal));
    }

    // The trail is of use only with what people changed in it: every column that is no counter of the database.
    [Fact]
    public async Task Columns_OfAuditedTables_AreWrittenToTheTrail()
    {
        await using var storage = StorageServices.On("Host=localhost;Database=never_opened");
        await storage.WithContextAsync(c =>
        {
            foreach (var type in Audited.Select(t => c.Model.FindEntityType(t)!))
            {
                var left = type.GetProperties().Where(p => p.ValueGenerated != Microsoft.EntityFrameworkCore.Metadata.ValueGenerated.Never || p.IsShadowProperty()).Select(p => p.Name);
                // An asset's hash and category are worked out by the database.
                Assert.Equal(["Version"], left.Except(["RecordHash", "Category"]));
                Assert.Equal(
                    type.ClrType.GetProperties(BindingFlags.Public | BindingFlags.Instance).Select(p => p.Name).Except(["Names", nameof(AssetRow.Recommendation)]).Order(),
                    type.GetProperties().Select(p => p.Name).Order());
            }

            return Task.FromResult(0);
        });
    }
}
