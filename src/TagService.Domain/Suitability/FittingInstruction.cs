using System.Numerics;
using TagService.Domain.Fitting;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;
using TagService.Domain.Words;

namespace TagService.Domain.Suitability;

/// <summary>What the fitter does, in order, with the figures of this asset, tag class and fixing filled in.</summary>
/// <param name="Steps">The steps as text.</param>
/// <param name="Minutes">Minutes for preparing and fixing; without encoding, check read and record (a planning value of the lifetime cost), the way there and the wait for the bond.</param>
/// <param name="StepIds">Ids of the steps, in the same order.</param>
public sealed record FittingInstruction(
    IReadOnlyList<string> Steps, double Minutes, IReadOnlyList<string> StepIds)
{
    // What an asset can need besides the method's own steps, in the order of the bits of ExtrasOf.
    private static readonly FittingStep[] Extras =
        [.. new[] { "ask-permit", "remove-coating", "warm-surface", "bend-along" }.Select(id => FittingSteps.Table[id])];

    /// <summary>
    /// The method's own steps, with what this asset needs besides (permit, removal of a loose coating, warming,
    /// a curve) after the first one. Minutes = class + method + those extras, planning values.
    /// </summary>
    /// <param name="asset">The asset.</param>
    /// <param name="tagClass">The tag class.</param>
    /// <param name="method">The fixing.</param>
    /// <param name="prediction">Range of that class with that fixing, where it is known already; for the acceptance check.</param>
    public static FittingInstruction For(ResolvedAsset asset, TagClass tagClass, AttachmentMethod method, RangePrediction? prediction = null)
    {
        var ids = IdsFor(asset, tagClass, method);
        var steps = new string[ids.Length];
        for (var i = 0; i < ids.Length; i++)
            steps[i] = Fill(FittingSteps.Table[ids[i]].Text, asset, tagClass, method, prediction);
        return new(steps, MinutesFor(asset, tagClass, method), ids);
    }

    /// <summary>Ids of the steps only, without building text.</summary>
    internal static string[] IdsFor(ResolvedAsset asset, TagClass tagClass, AttachmentMethod method)
    {
        var extras = ExtrasOf(asset, tagClass, method);
        var ids = new string[method.Steps.Count + BitOperations.PopCount((uint)extras)];
        var own = Math.Min(1, method.Steps.Count);
        var next = 0;
        for (; next < own; next++)
            ids[next] = method.Steps[next];
        for (var i = 0; i < Extras.Length; i++)
        {
            if ((extras & (1 << i)) != 0)
                ids[next++] = Extras[i].Id;
        }

        for (; next < ids.Length; next++)
            ids[next] = method.Steps[own++];
        return ids;
    }

    /// <summary>Minutes only, without building text: class + method + what this asset needs besides.</summary>
    /// <param name="asset">The asset.</param>
    /// <param name="tagClass">The tag class.</param>
    /// <param name="method">The fixing.</param>
    public static double MinutesFor(ResolvedAsset asset, TagClass tagClass, AttachmentMethod method)
    {
        var minutes = tagClass.ApplicationMinutes + method.Minutes;
        var extras = ExtrasOf(asset, tagClass, method);
        for (var i = 0; extras != 0; i++, extras >>= 1)
        {
            if ((extras & 1) != 0)
                minutes += Extras[i].ExtraMinutes;
        }

        return minutes;
    }

    // One bit for each of Extras; asked for every pair of class and fixing.
    private static int ExtrasOf(ResolvedAsset asset, TagClass tagClass, AttachmentMethod method)
    {
        var extras = asset.HazardousArea is null ? 0 : 1;
        if (method.Adhesive is not { } adhesive)
            return extras;
        if (asset.Coating.MustBeRemoved)
            extras |= 2;
        if (asset.ApplicationTemperatureC < adhesive.MinApplicationTemperatureC)
            extras |= 4;
        if (asset.CurvatureRadiusMm > 0 && tagClass.Limits.MinBendRadiusMm is not null)
            extras |= 8;
        return extras;
    }

    // One pass over the text: each {placeholder} is looked up where it stands.
    private static string Fill(string text, ResolvedAsset asset, TagClass tagClass, AttachmentMethod method, RangePrediction? prediction)
    {
        if (!text.Contains('{', StringComparison.Ordinal))
            return text;
        var filled = new InvariantTextHandler(text.Length, 2);
        var from = 0;
        while (text.IndexOf('{', from) is >= 0 and var open)
        {
            var close = text.IndexOf('}', open);
            filled.AppendFormatted(text.AsSpan(from, open - from));
            Append(ref filled, text.AsSpan(open + 1, close - open - 1), asset, tagClass, method, prediction);
            from = close + 1;
        }

        filled.AppendFormatted(text.AsSpan(from));
        return filled.ToStringAndClear();
    }

    private static void Append(
        ref InvariantTextHandler filled, ReadOnlySpan<char> placeholder, ResolvedAsset asset, TagClass tagClass, AttachmentMethod method, RangePrediction? prediction)
    {
        switch (placeholder)
        {
            case "coating":
                filled.AppendLiteral(asset.Coating.Name);
                break;
            case "tagName":
                filled.AppendLiteral(tagClass.Name);
                break;
            case "methodName":
                filled.AppendLiteral(method.Name);
                break;
            case "acceptanceCheck":
                filled.AppendLiteral((prediction is null ? AcceptanceCheck.For(asset, tagClass, method) : AcceptanceCheck.For(prediction, asset.RequiredRangeM)).Sentence);
                break;
            default:
                filled.AppendFormatted(Figure(placeholder, asset, tagClass, method), "0.##");
                break;
        }
    }

    private static double Figure(
        ReadOnlySpan<char> placeholder, ResolvedAsset asset, TagClass tagClass, AttachmentMethod method) => placeholder switch
    {
        "lengthMm" => tagClass.Size.LengthMm,
        "widthMm" => tagClass.Size.WidthMm,
        "heightMm" => tagClass.Size.HeightMm,
        "marginMm" => method.MarginMm,
        "applicationTemperatureMinC" => MinApplicationC(method),
        "fullBondHours" => method.Adhesive?.FullBondHours ?? 24,
        _ => throw new InvalidOperationException($"fitting-steps.data.json has the placeholder {placeholder}, which nobody fills."),
    };

    // Potting resin is an adhesive in all but name: its cold limit is that of two-part epoxy.
    private static double MinApplicationC(AttachmentMethod method) => method.Adhesive?.MinApplicationTemperatureC ?? 10;
}
