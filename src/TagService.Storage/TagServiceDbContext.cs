using Microsoft.EntityFrameworkCore;
using TagService.Storage.Tables;

namespace TagService.Storage;

/// <summary>The tables as EF Core sees them: small transactional work and queries. Bulk and claims use Npgsql directly.</summary>
public sealed class TagServiceDbContext(DbContextOptions<TagServiceDbContext> options) : DbContext(options)
{
    /// <summary>The register's mirror.</summary>
    public DbSet<AssetRow> Assets => Set<AssetRow>();

    /// <summary>What the engine last answered for each asset.</summary>
    public DbSet<AssetRecommendationRow> AssetRecommendations => Set<AssetRecommendationRow>();

    /// <summary>Which invented fleets were loaded.</summary>
    public DbSet<DemoFleetRow> DemoFleets => Set<DemoFleetRow>();

    /// <inheritdoc />
    protected override void OnModelCreating(ModelBuilder modelBuilder) => modelBuilder
        .ApplyConfiguration(new AssetTable())
        .ApplyConfiguration(new AssetRecommendationTable())
        .ApplyConfiguration(new DemoFleetTable());
}
