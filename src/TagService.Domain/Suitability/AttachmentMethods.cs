using TagService.Domain.Reference;

namespace TagService.Domain.Suitability;

/// <summary>The ways of fixing a tag.</summary>
public static class AttachmentMethods
{
    /// <summary>The table.</summary>
    public static ReferenceTable<AttachmentMethod> Table { get; } = new("attachment-methods.data.json", m => m.Id);

    /// <summary>All methods in file order.</summary>
    public static IReadOnlyList<AttachmentMethod> All => Table.All;
}
