using TagService.Domain.Reference;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Fitting;

/// <summary>What a fitter does when the fitted tag does not answer, in order.</summary>
/// <param name="Id">Stable kebab-case id.</param>
/// <param name="Technologies">Air interfaces it holds for.</param>
/// <param name="Text">What to do, in the imperative.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record CheckRemedy(string Id, IReadOnlyList<TagTechnology> Technologies, string Text, string Source);

/// <summary>The remedies.</summary>
public static class CheckRemedies
{
    /// <summary>The table.</summary>
    public static ReferenceTable<CheckRemedy> Table { get; } = new("check-remedies.data.json", r => r.Id);

    /// <summary>Those of an air interface, in order.</summary>
    /// <param name="technology">The air interface.</param>
    public static IReadOnlyList<CheckRemedy> For(TagTechnology technology) => [.. Table.All.Where(r => r.Technologies.Contains(technology))];
}
