using TagService.Domain.Attachments;

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
    public sealed record Taken(Recording Recording) : BatchResult;

    /// <summary>The mirror has no such asset.</summary>
    public sealed record NoSuchAsset : BatchResult;
}
