using TagService.Storage.Tables;

namespace TagService.Storage.Queries;

/// <summary>A tag batch as lists show it.</summary>
/// <param name="Batch">The batch.</param>
/// <param name="Use">What became of its tags.</param>
public sealed record StoredTagBatch(TagBatchRow Batch, TagBatchUse Use);

/// <summary>What became of the tags of a batch. Entries recorded by mistake count nowhere.</summary>
/// <param name="Fitted">Tags fitted, each once.</param>
/// <param name="Attachments">Attachments of those tags: more than tags where one was moved. The four numbers that follow add up to it.</param>
/// <param name="OpenNow">Attachments nobody knows an end of.</param>
/// <param name="Failed">Attachments that ended with a failure.</param>
/// <param name="Removed">Attachments that ended for another reason than a failure.</param>
/// <param name="NotKnown">Attachments that ended, and nobody knows whether by a failure.</param>
public sealed record TagBatchUse(long Fitted, long Attachments, long OpenNow, long Failed, long Removed, long NotKnown)
{
    /// <summary>Nothing fitted yet.</summary>
    public static TagBatchUse None { get; } = new(0, 0, 0, 0, 0, 0);
}
