using Microsoft.EntityFrameworkCore;
using TagService.Storage.Changes;
using TagService.Storage.Idempotency;
using TagService.Storage.Tables;

namespace TagService.Storage;

/// <summary>The tables as EF Core sees them: small transactional work and queries. Bulk and claims use Npgsql directly.</summary>
public sealed class TagServiceDbContext(DbContextOptions<TagServiceDbContext> options) : DbContext(options)
{
    /// <summary>The register's mirror.</summary>
    public DbSet<AssetRow> Assets => Set<AssetRow>();

    /// <summary>What the engine last answered for each asset.</summary>
    public DbSet<AssetRecommendationRow> AssetRecommendations => Set<AssetRecommendationRow>();

    /// <summary>Assets whose recommendation is to be worked out.</summary>
    public DbSet<RecommendationDueRow> RecommendationsDue => Set<RecommendationDueRow>();

    /// <summary>Which invented fleets were loaded.</summary>
    public DbSet<DemoFleetRow> DemoFleets => Set<DemoFleetRow>();

    /// <summary>Own tag classes and what is laid over built-in ones.</summary>
    public DbSet<TagClassOverlayRow> TagClassOverlays => Set<TagClassOverlayRow>();

    /// <summary>Ranges found in the field.</summary>
    public DbSet<RangeMeasurementRow> RangeMeasurements => Set<RangeMeasurementRow>();

    /// <summary>Requests of measured ranges that named an Idempotency-Key.</summary>
    public DbSet<RangeMeasurementBatchRow> RangeMeasurementBatches => Set<RangeMeasurementBatchRow>();

    /// <summary>What the measured ranges have taught, by class and material.</summary>
    public DbSet<RangeCalibrationRow> RangeCalibrations => Set<RangeCalibrationRow>();

    /// <summary>Pairs of class and material whose findings have changed since.</summary>
    public DbSet<RangeCalibrationDueRow> RangeCalibrationsDue => Set<RangeCalibrationDueRow>();

    /// <summary>The tree of places.</summary>
    public DbSet<LocationRow> Locations => Set<LocationRow>();

    /// <summary>Names under which locations are found.</summary>
    public DbSet<LocationNameRow> LocationNames => Set<LocationNameRow>();

    /// <summary>Readers and antennas with the places they cover.</summary>
    public DbSet<ReadPointRow> ReadPoints => Set<ReadPointRow>();

    /// <summary>Names under which read points are found.</summary>
    public DbSet<ReadPointNameRow> ReadPointNames => Set<ReadPointNameRow>();

    /// <summary>Tags bought together.</summary>
    public DbSet<TagBatchRow> TagBatches => Set<TagBatchRow>();

    /// <summary>Rules by which new identities are numbered.</summary>
    public DbSet<NumberingRuleRow> NumberingRules => Set<NumberingRuleRow>();

    /// <summary>Identities and their numbers.</summary>
    public DbSet<TagRow> Tags => Set<TagRow>();

    /// <summary>Which tag is or was on which asset.</summary>
    public DbSet<AttachmentRow> Attachments => Set<AttachmentRow>();

    /// <summary>Every change of an audited row.</summary>
    public DbSet<ChangeRow> Changes => Set<ChangeRow>();

    /// <summary>Requests that named an Idempotency-Key.</summary>
    public DbSet<IdempotentRequestRow> IdempotentRequests => Set<IdempotentRequestRow>();

    /// <summary>Identities taken for tags that are still to be fitted.</summary>
    public DbSet<ReservedIdentityRow> ReservedIdentities => Set<ReservedIdentityRow>();

    /// <summary>Registers that assets are read from.</summary>
    public DbSet<RegisterSourceRow> RegisterSources => Set<RegisterSourceRow>();

    /// <summary>Runs over register sources.</summary>
    public DbSet<RegisterSyncRow> RegisterSyncs => Set<RegisterSyncRow>();

    /// <summary>Rows of registers that were not taken.</summary>
    public DbSet<RejectedRowRow> RejectedRows => Set<RejectedRowRow>();

    /// <summary>Which source lists which asset.</summary>
    public DbSet<RegisterRowRow> RegisterRows => Set<RegisterRowRow>();

    /// <summary>Assets that unfinished runs have come across.</summary>
    public DbSet<RegisterSyncAssetRow> RegisterSyncAssets => Set<RegisterSyncAssetRow>();

    /// <inheritdoc />
    protected override void OnModelCreating(ModelBuilder modelBuilder) => modelBuilder
        .ApplyConfiguration(new AssetTable())
        .ApplyConfiguration(new AssetRecommendationTable())
        .ApplyConfiguration(new RecommendationDueTable())
        .ApplyConfiguration(new DemoFleetTable())
        .ApplyConfiguration(new TagClassOverlayTable())
        .ApplyConfiguration(new RangeMeasurementTable())
        .ApplyConfiguration(new RangeMeasurementBatchTable())
        .ApplyConfiguration(new RangeCalibrationTable())
        .ApplyConfiguration(new RangeCalibrationDueTable())
        .ApplyConfiguration<LocationRow>(new LocationTable())
        .ApplyConfiguration<LocationNameRow>(new LocationTable())
        .ApplyConfiguration<ReadPointRow>(new ReadPointTable())
        .ApplyConfiguration<ReadPointNameRow>(new ReadPointTable())
        .ApplyConfiguration(new TagBatchTable())
        .ApplyConfiguration(new NumberingRuleTable())
        .ApplyConfiguration(new TagTable())
        .ApplyConfiguration(new AttachmentTable())
        .ApplyConfiguration(new ChangeTable())
        .ApplyConfiguration(new IdempotentRequestTable())
        .ApplyConfiguration(new ReservedIdentityTable())
        .ApplyConfiguration(new RegisterSourceTable())
        .ApplyConfiguration(new RegisterSyncTable())
        .ApplyConfiguration(new RejectedRowTable())
        .ApplyConfiguration(new RegisterRowTable())
        .ApplyConfiguration(new RegisterSyncAssetTable());
}
