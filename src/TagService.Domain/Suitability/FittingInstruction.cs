using System.Globalization;
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
    /// <summary>
    /// The method's own steps, with what this asset needs besides (permit, removal of a loose coating, warming,
    /// a curve) after the first one. Minutes = class + method + those extras, planning values.
    /// </summary>
    /// <param name="asset">The asset.</param>
    /// <param name="tagClass">The tag class.</param>
    /// <param name="method">The fixing.</param>
    public static FittingInstruction For(ResolvedAsset asset, TagClass tagClass, AttachmentMethod method)
    {
        var extras = ExtrasFor(asset, tagClass, method);
        List<string> ids = [.. method.Steps.Take(1), .. extras, .. method.Steps.Skip(1)];
        var steps = ids.ConvertAll(id => Fill(FittingSteps.Table[id].Text, asset, tagClass, method));
        return new(steps, Sum(tagClass, method, extras), ids);
    }

    /// <summary>Minutes only, without building text: class + method + what this asset needs besides.</summary>
    /// <param name="asset">The asset.</param>
    /// <param name="tagClass">The tag class.</param>
    /// <param name="method">The fixing.</param>
    public static double MinutesFor(ResolvedAsset asset, TagClass tagClass, AttachmentMethod method) =>
        Sum(tagClass, method, ExtrasFor(asset, tagClass, method));

    private static double Sum(TagClass tagClass, AttachmentMethod method, List<string> extras)
    {
        var minutes = tagClass.ApplicationMinutes + method.Minutes;
        foreach (var id in extras)
            minutes += FittingSteps.Table[id].ExtraMinutes;
        return minutes;
    }

    private static List<string> ExtrasFor(ResolvedAsset asset, TagClass tagClass, AttachmentMethod method)
    {
        var extras = new List<string>();
        if (asset.HazardousArea is not null)
            extras.Add("ask-permit");
        if (method.Adhesive is not { } adhesive)
            return extras;
        if (asset.Coating.MustBeRemoved)
            extras.Add("remove-coating");
        if (asset.ApplicationTemperatureC < adhesive.MinApplicationTemperatureC)
            extras.Add("warm-surface");
        if (asset.CurvatureRadiusMm > 0 && tagClass.Limits.MinBendRadiusMm is not null)
            extras.Add("bend-along");
        return extras;
    }

    private static string Fill(string text, ResolvedAsset asset, TagClass tagClass, AttachmentMethod method) =>
        text.Contains('{', StringComparison.Ordinal)
            ? text
                .Replace("{lengthMm}", Number(tagClass.Size.LengthMm), StringComparison.Ordinal)
                .Replace("{widthMm}", Number(tagClass.Size.WidthMm), StringComparison.Ordinal)
                .Replace("{heightMm}", Number(tagClass.Size.HeightMm), StringComparison.Ordinal)
                .Replace("{marginMm}", Number(method.MarginMm), StringComparison.Ordinal)
                .Replace("{applicationTemperatureMinC}", Number(MinApplicationC(method)), StringComparison.Ordinal)
                .Replace("{fullBondHours}", Number(method.Adhesive?.FullBondHours ?? 24), StringComparison.Ordinal)
                .Replace("{requiredRangeM}", Number(asset.RequiredRangeM), StringComparison.Ordinal)
                .Replace("{coating}", asset.Coating.Name, StringComparison.Ordinal)
                .Replace("{tagName}", tagClass.Name, StringComparison.Ordinal)
                .Replace("{methodName}", method.Name, StringComparison.Ordinal)
            : text;

    // Potting resin is an adhesive in all but name: its cold limit is that of two-part epoxy.
    private static double MinApplicationC(AttachmentMethod method) => method.Adhesive?.MinApplicationTemperatureC ?? 10;

    private static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
