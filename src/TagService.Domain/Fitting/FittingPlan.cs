using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Fitting;

/// <summary>What a fitter is told about one asset: <see cref="PlannedFitting"/>, or <see cref="NoFitting"/> where no class suits.</summary>
public abstract record FittingPlan
{
    // What a fitter sees on the spot and would have to stop for.
    private static readonly string[] OnTheSpot = ["/surface", "/mounting", "/environment/applicationTemperatureC", "/environment/hazardousArea"];

    private protected FittingPlan()
    {
    }

    /// <summary>The recommendation behind it.</summary>
    public required RecommendationAnswer Answer { get; init; }

    /// <summary>The asset with its gaps filled.</summary>
    public required ResolvedAsset Asset { get; init; }

    /// <summary>What was assumed of the place because the record does not say: to be looked at before the work begins.</summary>
    public required IReadOnlyList<Assumption> ToConfirm { get; init; }

    /// <summary>Cautions of the asset and of the work as a whole, the gravest first; the others stand with their steps.</summary>
    public required IReadOnlyList<Caution> CautionsFirst { get; init; }

    /// <summary>Plans the fitting of the class that is recommended for a record. Pure: the same record and context give the same plan.</summary>
    /// <param name="record">What is known of the asset.</param>
    /// <param name="context">Catalogue, measured ranges and day.</param>
    public static FittingPlan For(AssetRecord record, RecommendationContext context)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(context);
        var answer = RecommendationEngine.Recommend(record, new(IncludeQuestions: false), context);
        var asset = ProfileResolution.Resolve(record).Asset;
        IReadOnlyList<Assumption> toConfirm = [.. answer.Assumptions.Where(a => OnTheSpot.Any(p => a.Pointer.StartsWith(p, StringComparison.Ordinal)))];
        if (answer.Recommendation is { } best)
            return PlannedFitting.Of(answer, best, asset, toConfirm);
        return new NoFitting { Answer = answer, Asset = asset, ToConfirm = toConfirm, CautionsFirst = answer.Cautions, Because = answer.NoneBecause! };
    }
}

/// <summary>No class suits: nothing is to be fitted until something changes.</summary>
public sealed record NoFitting : FittingPlan
{
    /// <summary>Why, and which single changes would let a class in.</summary>
    public required NoneBecause Because { get; init; }
}

/// <summary>One step of the work.</summary>
/// <param name="Id">Id of the step in the table of steps.</param>
/// <param name="Text">What to do, with this asset's figures.</param>
/// <param name="Caution">The caution to read before it; null if it has none of its own.</param>
public sealed record PlannedStep(string Id, string Text, Caution? Caution);

/// <summary>What to fit, and everything that goes with it in the order of the work.</summary>
public sealed record PlannedFitting : FittingPlan
{
    // They concern whoever switches a reader on, not the hands at the asset.
    private static readonly string[] OfTheReader = ["radio-transmitter", "radio-exposure"];

    /// <summary>The tag class with its fixing, range and reasons.</summary>
    public required Candidate Choice { get; init; }

    /// <summary>The class.</summary>
    public TagClass TagClass => Choice.TagClass;

    /// <summary>Its fixing.</summary>
    public AttachmentMethod Method => Choice.Method;

    /// <summary>What only just holds, in sentences: to be looked at on the spot.</summary>
    public IReadOnlyList<string> OnlyJust => [.. Choice.Rejections.Select(r => r.Sentence)];

    /// <summary>Preparation.</summary>
    public required IReadOnlyList<PlannedStep> Preparing { get; init; }

    /// <summary>The tag comes on.</summary>
    public required IReadOnlyList<PlannedStep> Fixing { get; init; }

    /// <summary>Cautions to read before a reader is switched on.</summary>
    public required IReadOnlyList<Caution> CautionsOfTheReader { get; init; }

    /// <summary>What to write and lock.</summary>
    public required WritePolicy Writing { get; init; }

    /// <summary>When the tag is accepted.</summary>
    public required AcceptanceCheck Check { get; init; }

    /// <summary>What to do when it does not answer.</summary>
    public required IReadOnlyList<CheckRemedy> Remedies { get; init; }

    /// <summary>What to bring along.</summary>
    public required IReadOnlyList<KitItem> Kit { get; init; }

    internal static PlannedFitting Of(RecommendationAnswer answer, Candidate best, ResolvedAsset asset, IReadOnlyList<Assumption> toConfirm)
    {
        var instruction = FittingInstruction.For(asset, best.TagClass, best.Method);
        var steps = instruction.StepIds.Zip(instruction.Steps, (id, text) => (Row: FittingSteps.Table[id], Text: text)).ToList();
        var ofTheAsset = CautionSelection.For(asset, null, null);
        var withSteps = steps.Where(s => Is(s.Row, FittingPhase.Prepare) || Is(s.Row, FittingPhase.Fix)).Select(s => s.Row.Caution).ToHashSet();
        return new()
        {
            Answer = answer,
            Asset = asset,
            ToConfirm = toConfirm,
            Choice = best,
            CautionsFirst = [.. answer.Cautions.Where(c => !OfTheReader.Contains(c.Id) && (ofTheAsset.Contains(c) || !withSteps.Contains(c.Id)))],
            CautionsOfTheReader = [.. answer.Cautions.Where(c => OfTheReader.Contains(c.Id))],
            Preparing = Phase(FittingPhase.Prepare),
            Fixing = Phase(FittingPhase.Fix),
            Writing = WritePolicies.For(best.TagClass),
            Check = AcceptanceCheck.For(asset, best.TagClass, best.Method),
            Remedies = CheckRemedies.For(best.TagClass.Technology),
            Kit = KitItems.For([.. instruction.StepIds]),
        };

        IReadOnlyList<PlannedStep> Phase(FittingPhase phase) =>
            [.. steps.Where(s => Is(s.Row, phase)).Select(s => new PlannedStep(s.Row.Id, s.Text, Cautions.Table.Find(s.Row.Caution)))];
    }

    private static bool Is(FittingStep step, FittingPhase phase) => step.Phase == phase;
}
