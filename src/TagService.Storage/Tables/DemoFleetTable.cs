using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Tables;

internal sealed class DemoFleetTable : IEntityTypeConfiguration<DemoFleetRow>
{
    public void Configure(EntityTypeBuilder<DemoFleetRow> builder)
    {
        builder.ToTable("demo_fleets");
        builder.HasKey(f => f.Name);
    }
}
