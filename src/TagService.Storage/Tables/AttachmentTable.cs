using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using TagService.Domain.Recommendations;

namespace TagService.Storage.Tables;

/// <remarks>
/// The migration adds what EF Core has no words for: the exclusion constraint <c>ex_attachments_certain_periods</c>, the last
/// line behind the check of <see cref="Domain.Attachments.AttachmentSpan"/> that runs under a lock of the tag's row.
/// </remarks>
internal sealed class AttachmentTable : IEntityTypeConfiguration<AttachmentRow>
{
    public void Configure(EntityTypeBuilder<AttachmentRow> builder)
    {
        builder.ToTable("attachments", table =>
        {
            table.HasCheckConstraint("ck_attachments_start", "start_not_before <= start_not_after");
            table.HasCheckConstraint("ck_attachments_end", "end_not_before <= end_not_after");
            table.HasCheckConstraint("ck_attachments_start_before_end", "start_not_before <= end_not_after");
            table.HasCheckConstraint("ck_attachments_end_with_reason", "end_reason IS NOT NULL OR (end_not_before IS NULL AND end_not_after IS NULL AND NOT is_void)");
            table.HasCheckConstraint("ck_attachments_labour_minutes", "labour_minutes BETWEEN 0 AND 10000");
        });
        builder.HasKey(a => new { a.TagId, a.Id });
        builder.HasOne<TagRow>().WithMany().HasForeignKey(a => a.TagId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(a => a.AssetId).UseCollation("C");
        builder.HasOne<AssetRow>().WithMany().HasForeignKey(a => a.AssetId).OnDelete(DeleteBehavior.Restrict);
        // Added without looking at older rows (NOT VALID): those may name batches that were never entered, and do so until somebody enters them.
        builder.HasOne<TagBatchRow>().WithMany().HasForeignKey(a => a.TagBatchId).OnDelete(DeleteBehavior.Restrict);
        foreach (var id in new[] { nameof(AttachmentRow.TagClassId), nameof(AttachmentRow.MethodId), nameof(AttachmentRow.EndReason), nameof(AttachmentRow.TagBatchId) })
            builder.Property(id).UseCollation("C");
        builder.Property(a => a.CheckReaderKind).HasConversion(kind => TextOf(kind!.Value), text => KindOf(text));
        builder.Property(a => a.Version).IsRowVersion().HasColumnName("xmin");
        // Ids are ours and never repeat; unique within the tag, so that the table can be distributed by it.
        builder.HasIndex(a => a.Id);
        builder.HasIndex(a => a.TagId).IsUnique().HasFilter("end_reason IS NULL").HasDatabaseName("ux_attachments_open");
        builder.HasIndex(a => a.AssetId);
        builder.HasIndex(a => a.AssetId, "open").HasDatabaseName("ix_attachments_open_asset").HasFilter("end_reason IS NULL").IncludeProperties(a => a.TagId);
        builder.HasIndex(a => a.TagBatchId).HasFilter("tag_batch_id IS NOT NULL");
    }

    /// <summary>As it is stored.</summary>
    internal static string TextOf(ReaderKind kind) => JsonNamingPolicy.KebabCaseLower.ConvertName(kind.ToString());

    /// <summary>From what is stored.</summary>
    internal static ReaderKind KindOf(string text) => Enum.GetValues<ReaderKind>().First(k => TextOf(k) == text);
}
