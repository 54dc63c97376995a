namespace TagService.Domain.Places;

/// <summary>How a read point looks at its place, which decides what a missing read can mean.</summary>
public enum ReadPointKind
{
    /// <summary>Keeps a space under observation; its days count as inferred sweeps.</summary>
    Area,

    /// <summary>Keeps the inside of a cabinet, case or vehicle under observation; its days count as inferred sweeps.</summary>
    Cabinet,

    /// <summary>A person walks a place with a reader; only sweeps that are posted count.</summary>
    Walked,

    /// <summary>Sees what goes by. Evidence of presence and movement, never of absence.</summary>
    Passage,
}

/// <summary>What follows from the kind of a read point.</summary>
public static class ReadPointKinds
{
    /// <summary>Length in hours of an inferred sweep where nobody says otherwise: one day (planning value).</summary>
    public const double DefaultSweepHours = 24;

    /// <summary>Does the read point yield inferred sweeps? Only what watches a space all the time can miss something by itself.</summary>
    /// <param name="kind">Its kind.</param>
    public static bool InfersSweeps(this ReadPointKind kind) => kind is ReadPointKind.Area or ReadPointKind.Cabinet;
}
