namespace TagService.Intake.Registers;

/// <summary>Why a source cannot be read on.</summary>
public enum RegisterFault
{
    /// <summary>No connection, or it broke.</summary>
    Unreachable,

    /// <summary>No answer in time, or the answer stopped coming.</summary>
    TimedOut,

    /// <summary>The source asks to wait (429, 503); see <see cref="RegisterReadException.RetryAt"/>.</summary>
    Throttled,

    /// <summary>Too many failures in a row: nothing is sent for a while.</summary>
    CircuitOpen,

    /// <summary>The source answers with an error of its own (5xx).</summary>
    SourceFailed,

    /// <summary>The source refuses the credentials, or they are not to be sent there (401, 403).</summary>
    CredentialsRefused,

    /// <summary>The source does not know the address or the file is not there.</summary>
    NotFound,

    /// <summary>The source refuses the request (other 4xx).</summary>
    RequestRefused,

    /// <summary>The answer is not of the kind expected, for example a log-in page.</summary>
    WrongContentType,

    /// <summary>The content is not what its kind promises.</summary>
    Malformed,

    /// <summary>The content ends too early.</summary>
    Truncated,

    /// <summary>The content has no list of rows where it should be.</summary>
    NoRows,

    /// <summary>The content is larger than allowed.</summary>
    TooLarge,

    /// <summary>The pages lead in a circle or do not end.</summary>
    EndlessPaging,

    /// <summary>The address or a redirect leads where requests may not go.</summary>
    ForbiddenAddress,

    /// <summary>The file is still being written after the longest wait.</summary>
    StillBeingWritten,

    /// <summary>The source changed while it was read, so that what was read so far does not fit what comes.</summary>
    Changed,
}

/// <summary>A source that cannot be read on. Its text names no credential, no query string and no content.</summary>
public sealed class RegisterReadException : Exception
{
    /// <summary>Says why.</summary>
    /// <param name="fault">Why, as a closed set.</param>
    /// <param name="message">A sentence for whoever looks after the source.</param>
    /// <param name="innerException">What lies behind it.</param>
    public RegisterReadException(RegisterFault fault, string message, Exception? innerException = null)
        : base(message, innerException) => Fault = fault;

    /// <summary>Why.</summary>
    public RegisterFault Fault { get; }

    /// <summary>When the source or the circuit asks to be tried again, where that is known.</summary>
    public DateTimeOffset? RetryAt { get; init; }

    /// <summary>May the same request succeed a little later?</summary>
    public bool IsTransient => Fault is RegisterFault.Unreachable or RegisterFault.TimedOut or RegisterFault.Truncated or RegisterFault.Malformed;
}
