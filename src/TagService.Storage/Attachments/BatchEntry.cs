using TagService.Domain.Attachments;
using TagService.Domain.Fitting;

namespace TagService.Storage.Attachments;

/// <summary>One line for the batch writer.</summary>
/// <param name="Tag">The tag as it was sent.</param>
/// <param name="Line">What the line says.</param>
public sealed record BatchEntry(TagSeen Tag, RecordedLine Line);

/// <summary>What became of it.</summary>
public abstract record BatchResult
{
    private BatchResult()
    {
    }

    /// <summary>Recorded, known or refused.</summary>
    /// <param name="Recording">Which of them.</param>
    /// <param name="Check">What its check is worth; null where it was not looked at.</param>
    public sealed record Taken(Recording Recording, CheckFinding? Check) : BatchResult;

    /// <summary>The tag batch it names was never entered.</summary>
    /// <param name="Id">The id it names.</param>
    public sealed record NoSuchTagBatch(string Id) : BatchResult;

    /// <summary>The mirror has no such asset.</summary>
    public sealed record NoSuchAsset : BatchResult;
}
