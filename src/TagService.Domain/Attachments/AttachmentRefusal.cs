namespace TagService.Domain.Attachments;

/// <summary>Why a change of attachments is not taken: an expected outcome, so a value and no exception. Nothing has changed then.</summary>
public abstract record AttachmentRefusal
{
    private AttachmentRefusal(string field, string? value, string detail, string accepted)
    {
        (Field, Value, Detail, Accepted) = (field, value, detail, accepted);
    }

    /// <summary>Name of the field as the interface has it.</summary>
    public string Field { get; init; }

    /// <summary>What was given; null when nothing was.</summary>
    public string? Value { get; }

    /// <summary>What is wrong, in one sentence.</summary>
    public string Detail { get; }

    /// <summary>What would be accepted.</summary>
    public string Accepted { get; }

    /// <summary>Two values of the entry itself cannot both hold.</summary>
    public sealed record Contradictory : AttachmentRefusal
    {
        internal Contradictory(string field, string? value, string detail, string accepted)
            : base(field, value, detail, accepted)
        {
        }
    }

    /// <summary>A name that is in no table.</summary>
    public sealed record UnknownName : AttachmentRefusal
    {
        internal UnknownName(string field, string? value, string detail, string accepted)
            : base(field, value, detail, accepted)
        {
        }
    }

    /// <summary>The tag was on an asset at that time already.</summary>
    public sealed record InTheWay : AttachmentRefusal
    {
        internal InTheWay(string field, string? value, string detail, string accepted, Attachment other)
            : base(field, value, detail, accepted) => Other = other;

        /// <summary>The attachment in the way.</summary>
        public Attachment Other { get; }
    }

    /// <summary>It is recorded already, with other values.</summary>
    public sealed record RecordedOtherwise : AttachmentRefusal
    {
        internal RecordedOtherwise(string field, string? value, string detail, string accepted, Attachment recorded)
            : base(field, value, detail, accepted) => Recorded = recorded;

        /// <summary>What is recorded.</summary>
        public Attachment Recorded { get; }
    }

    /// <summary>No attachment, or more than one, could be meant.</summary>
    public sealed record NotOne : AttachmentRefusal
    {
        internal NotOne(string field, string? value, string detail, string accepted, IReadOnlyList<Attachment> possible)
            : base(field, value, detail, accepted) => Possible = possible;

        /// <summary>Those that could be meant.</summary>
        public IReadOnlyList<Attachment> Possible { get; }
    }
}
