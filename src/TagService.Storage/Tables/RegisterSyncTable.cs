using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Tables;

internal sealed class RegisterSyncTable : IEntityTypeConfiguration<RegisterSyncRow>
{
    /// <summary>A source has at most one run that is not over; also the end of two requests at once.</summary>
    public const string OneOpenRun = "ix_register_syncs_open";

    public void Configure(EntityTypeBuilder<RegisterSyncRow> builder)
    {
        builder.ToTable("register_syncs", table =>
            table.HasCheckConstraint("ck_register_syncs_state", $"state IN ({KebabText<RegisterSyncState>.SqlList})"));
        builder.HasKey(s => s.Id);
        builder.Property(s => s.SourceName).UseCollation("C");
        builder.Property(s => s.State).HasConversion(new KebabText<RegisterSyncState>());
        builder.Property(s => s.Notes).HasColumnType("jsonb");
        builder.Property(s => s.Id).UseIdentityAlwaysColumn();
        builder.HasIndex(s => new { s.SourceName, s.Id });
        builder.HasIndex(s => s.SourceName, "open").HasDatabaseName(OneOpenRun).IsUnique().HasFilter("state IN ('waiting', 'running')");
    }
}
