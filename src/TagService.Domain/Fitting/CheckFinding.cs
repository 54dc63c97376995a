using TagService.Domain.Radio;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Fitting;

/// <summary>What the check of an attachment says about the range of its tag class on its asset's material.</summary>
public abstract record CheckFinding
{
    private CheckFinding()
    {
    }

    /// <summary>It counts as one measured range.</summary>
    /// <param name="TagClass">The class with its figures of today.</param>
    /// <param name="Measurement">The range, every gap filled.</param>
    public sealed record Usable(TagClass TagClass, RangeMeasurement Measurement) : CheckFinding;

    /// <summary>A distance was recorded, but a fact is missing or cannot be right: nothing is learnt from it.</summary>
    /// <param name="Field">Name of the attachment's field that has to be set or looked at; <c>surface.material</c> is the asset's.</param>
    /// <param name="Because">Why, in one sentence.</param>
    /// <param name="Accepted">What would make it usable.</param>
    public sealed record NotUsable(string Field, string Because, string Accepted) : CheckFinding;

    /// <summary>No distance was recorded, or the entry never happened.</summary>
    public sealed record NotChecked : CheckFinding;
}
