using System.Globalization;

namespace TagService.Domain.Identity.Tags;

/// <summary>What the lock command does to one field. Values are the two action bits: password needed to write, for ever.</summary>
public enum LockAction
{
    /// <summary>Writable.</summary>
    Unlock,

    /// <summary>Writable for ever; cannot be undone.</summary>
    PermanentUnlock,

    /// <summary>Writable in the secured state only, that is with the access password unless that is zero.</summary>
    Lock,

    /// <summary>Never writable again, a password never readable either; cannot be undone.</summary>
    PermanentLock,
}

/// <summary>
/// The 20 bits of the lock command: five pairs of mask bits, then five pairs of action bits, for kill password, access password, EPC, TID
/// and user memory. Caution: a permanent lock on the wrong bank makes a fitted tag unusable for another identity, and a lock without an
/// access password protects nothing; whoever answers for the tags decides. Source: Gen2 air interface as quoted in an open handbook
/// (secondary); EPC values from published examples (read).
/// </summary>
/// <param name="Bits">The twenty bits as a number.</param>
public readonly record struct LockPayload(int Bits)
{
    /// <summary>A payload; null leaves a field as it is.</summary>
    /// <param name="killPassword">Kill password.</param>
    /// <param name="accessPassword">Access password.</param>
    /// <param name="epc">EPC bank.</param>
    /// <param name="tid">TID bank.</param>
    /// <param name="user">User bank.</param>
    public static LockPayload Of(
        LockAction? killPassword = null, LockAction? accessPassword = null, LockAction? epc = null, LockAction? tid = null, LockAction? user = null)
    {
        var masks = 0;
        var actions = 0;
        foreach (var action in (ReadOnlySpan<LockAction?>)[killPassword, accessPassword, epc, tid, user])
        {
            masks = (masks << 2) | (action is null ? 0 : 0b11);
            actions = (actions << 2) | (int)(action ?? 0);
        }

        return new((masks << 10) | actions);
    }

    /// <summary>Five hexadecimal digits.</summary>
    public override string ToString() => Bits.ToString("X5", CultureInfo.InvariantCulture);
}
