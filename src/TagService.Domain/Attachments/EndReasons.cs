using TagService.Domain.Reference;

namespace TagService.Domain.Attachments;

/// <summary>The reasons for which attachments end. A new one is a row in the table.</summary>
public static class EndReasons
{
    /// <summary>The table.</summary>
    public static ReferenceTable<EndReason> Table { get; } = new("end-reasons.data.json", r => r.Id);

    /// <summary>All reasons in file order.</summary>
    public static IReadOnlyList<EndReason> All => Table.All;
}
