using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Tables;

internal sealed class NumberingRuleTable : IEntityTypeConfiguration<NumberingRuleRow>
{
    public void Configure(EntityTypeBuilder<NumberingRuleRow> builder)
    {
        builder.ToTable("numbering_rules", table =>
        {
            table.HasCheckConstraint("ck_numbering_rules_id", "length(id) BETWEEN 1 AND 100");
            table.HasCheckConstraint("ck_numbering_rules_prefix", "company_prefix ~ '^[0-9]{6,12}$'");
            // What was handed out stays behind the counter and within the range, whoever writes.
            table.HasCheckConstraint("ck_numbering_rules_numbers", "first_number >= 0 AND first_number <= next_number AND last_number <= 9007199254740991");
            table.HasCheckConstraint("ck_numbering_rules_handed_out", "handed_out_through >= first_number AND handed_out_through < next_number AND handed_out_through <= last_number");
        });
        builder.HasKey(r => r.Id);
        builder.Property(r => r.Id).UseCollation("C");
        builder.Property(r => r.Version).IsRowVersion().HasColumnName("xmin");
        builder.HasIndex(r => r.IsDefault).HasDatabaseName("ux_numbering_rules_default").IsUnique().HasFilter("is_default");
    }
}
