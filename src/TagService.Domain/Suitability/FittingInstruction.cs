using System.Globalization;
using System.Text;
using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Suitability;

/// <summary>What the fitter does, in order, with the figures of this asset, tag class and fixing filled in.</summary>
/// <param name="Steps">The steps as text.</param>
/// <param name="Minutes">Minutes for preparing and fixing; without encoding, check read and record (a planning value of the lifetime cost), the way there and the wait for the bond.</param>
/// <param name="StepIds">Ids of the steps, in the same order.</param>
public sealed record FittingInstruction(
    IReadOnlyList<string> Steps, double Minutes, IReadOnlyList<string> StepIds)
{
    // What an asset needs besides the method's own steps; rows looked up once, because minutes are summed for every fixing.
    private static readonly Extra[] AllExtras =
    [
        new("ask-permit", static (asset, _, _) => asset.HazardousArea is not null),
        new("remove-coating", static (asset, _, method) => method.Adhesive is not null && asset.Coating.MustBeRemoved),
        new("warm-surface", static (asset, _, method) =>
            method.Adhesive is { } adhesive && asset.ApplicationTemperatureC < adhesive.MinApplicationTemperatureC),
        new("bend-along", static (asset, tagClass, method) =>
            method.Adhesive is not null && asset.CurvatureRadiusMm > 0 && tagClass.Limits.MinBendRadiusMm is not null),
    ];

    /// <summary>
    /// The method's own steps, with what this asset needs besides (permit, removal of a loose coating, warming,
    /// a curve) after the first one. Minutes = class + method + those extras, planning values.
    /// </summary>
    /// <param name="asset">The asset.</param>
    /// <param name="tagClass">The tag class.</param>
    /// <param name="method">The fixing.</param>
    public static FittingInstruction For(ResolvedAsset asset, TagClass tagClass, AttachmentMethod method)
    {
        List<string> ids = [.. method.Steps.Take(1), .. ExtrasFor(asset, tagClass, method), .. method.Steps.Skip(1)];
        var steps = ids.ConvertAll(id => Fill(FittingSteps.Table[id].Text, asset, tagClass, method));
        return new(steps, MinutesFor(asset, tagClass, method), ids);
    }

    /// <summary>Minutes only, without building text: class + method + what this asset needs besides.</summary>
    /// <param name="asset">The asset.</param>
    /// <param name="tagClass">The tag class.</param>
    /// <param name="method">The fixing.</param>
    public static double MinutesFor(ResolvedAsset asset, TagClass tagClass, AttachmentMethod method)
    {
        var minutes = tagClass.ApplicationMinutes + method.Minutes;
        foreach (var extra in AllExtras)
        {
            if (extra.AppliesTo(asset, tagClass, method))
                minutes += extra.Step.ExtraMinutes;
        }

        return minutes;
    }

    private static IEnumerable<string> ExtrasFor(ResolvedAsset asset, TagClass tagClass, AttachmentMethod method) =>
        AllExtras.Where(e => e.AppliesTo(asset, tagClass, method)).Select(e => e.Step.Id);

    // One pass over the text: each {placeholder} is looked up where it stands.
    private static string Fill(string text, ResolvedAsset asset, TagClass tagClass, AttachmentMethod method)
    {
        if (!text.Contains('{', StringComparison.Ordinal))
            return text;
        var filled = new StringBuilder(text.Length + 32);
        var from = 0;
        while (text.IndexOf('{', from) is >= 0 and var open)
        {
            var close = text.IndexOf('}', open);
            filled.Append(text, from, open - from).Append(Value(text.AsSpan(open + 1, close - open - 1), asset, tagClass, method));
            from = close + 1;
        }

        return filled.Append(text, from, text.Length - from).ToString();
    }

    private static string Value(
        ReadOnlySpan<char> placeholder, ResolvedAsset asset, TagClass tagClass, AttachmentMethod method) => placeholder switch
    {
        "lengthMm" => Number(tagClass.Size.LengthMm),
        "widthMm" => Number(tagClass.Size.WidthMm),
        "heightMm" => Number(tagClass.Size.HeightMm),
        "marginMm" => Number(method.MarginMm),
        "applicationTemperatureMinC" => Number(MinApplicationC(method)),
        "fullBondHours" => Number(method.Adhesive?.FullBondHours ?? 24),
        "requiredRangeM" => Number(asset.RequiredRangeM),
        "coating" => asset.Coating.Name,
        "tagName" => tagClass.Name,
        "methodName" => method.Name,
        _ => throw new InvalidOperationException($"fitting-steps.data.json has the placeholder {placeholder}, which nobody fills."),
    };

    // Potting resin is an adhesive in all but name: its cold limit is that of two-part epoxy.
    private static double MinApplicationC(AttachmentMethod method) => method.Adhesive?.MinApplicationTemperatureC ?? 10;

    private static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    private sealed class Extra(string stepId, Func<ResolvedAsset, TagClass, AttachmentMethod, bool> appliesTo)
    {
        public FittingStep Step { get; } = FittingSteps.Table[stepId];

        public Func<ResolvedAsset, TagClass, AttachmentMethod, bool> AppliesTo { get; } = appliesTo;
    }
}
