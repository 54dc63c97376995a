using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Changes;

internal sealed class ChangeTable : IEntityTypeConfiguration<ChangeRow>
{
    public void Configure(EntityTypeBuilder<ChangeRow> builder)
    {
        builder.ToTable("changes");
        builder.HasKey(c => c.Id);
        builder.Property(c => c.Id).UseIdentityAlwaysColumn();
        builder.Property(c => c.Kind).UseCollation("C");
        builder.Property(c => c.Key).UseCollation("C");
        builder.Property(c => c.Action).HasConversion(
            action => action == ChangeAction.Created ? "created" : action == ChangeAction.Changed ? "changed" : "deleted",
            text => text == "created" ? ChangeAction.Created : text == "changed" ? ChangeAction.Changed : ChangeAction.Deleted);
        builder.Property(c => c.Before).HasColumnType("jsonb");
        builder.Property(c => c.After).HasColumnType("jsonb");
        // The history of one item, latest first.
        builder.HasIndex(c => new { c.Kind, c.Key, c.Id });
        // And of all items of a kind.
        builder.HasIndex(c => new { c.Kind, c.Id });
    }
}
