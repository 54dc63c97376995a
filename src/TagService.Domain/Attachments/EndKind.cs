namespace TagService.Domain.Attachments;

/// <summary>What the end of an attachment says about the tag's life. Failures and removals never mix in lifetimes.</summary>
public enum EndKind
{
    /// <summary>The tag or its fixing failed: this is what lifetimes measure.</summary>
    Failure,

    /// <summary>It ended for another reason than failing: the life was at least this long.</summary>
    Removal,

    /// <summary>Nobody knows whether it failed: the life was at least as long as it was known to answer.</summary>
    Unknown,

    /// <summary>It never was: the entry does not count, and another attachment of the tag may take its time.</summary>
    RecordingMistake,
}
