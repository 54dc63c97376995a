namespace TagService.Domain.Registers;

/// <summary>What becomes of a row of which a value is not understood.</summary>
public enum WhenNotUnderstood
{
    /// <summary>The row is refused and kept with its reason.</summary>
    RefuseRow,

    /// <summary>The row is taken without that field, which stays as it was; the original goes to the attributes and is counted.</summary>
    LeaveOut,
}
