using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>Fills the room for the tag.</summary>
internal readonly record struct RoomPart(double LengthMm, double WidthMm, double MaxHeightMm, bool AllowDrilling)
{
    /// <summary>Name of the further field by which a record asks for a printed code.</summary>
    internal const string PrintField = "needsPrint";

    public static RoomPart Resolve(MountingRecord? given, MountingRecord typical, Gaps gaps)
    {
        var length = gaps.Pick(ResolvedField.LengthMm, given?.LengthMm, typical.LengthMm, null);
        var width = gaps.Pick(ResolvedField.WidthMm, given?.WidthMm, typical.WidthMm, null);
        if (given?.LengthMm is not null && given.WidthMm is null && width > length)
        {
            // The given side is the longer one: the assumed side cannot exceed it.
            gaps.Assume(ResolvedField.WidthMm, AssumptionBasis.Derived);
            width = length;
        }
        else if (given?.LengthMm is null && given?.WidthMm is not null && width > length)
        {
            gaps.Assume(ResolvedField.LengthMm, AssumptionBasis.Derived);
            length = width;
        }

        return new(
            Math.Max(length, width),
            Math.Min(length, width),
            gaps.Pick(ResolvedField.MaxHeightMm, given?.MaxHeightMm, typical.MaxHeightMm, null),
            gaps.Pick(ResolvedField.AllowDrilling, given?.AllowDrilling, typical.AllowDrilling, null));
    }

    public static bool NeedsPrint(IReadOnlyDictionary<string, string> attributes, Gaps gaps)
    {
        if (attributes.Count > 0 && attributes.TryGetValue(PrintField, out var text))
            return text is not null && text.Trim().ToUpperInvariant() is "TRUE" or "YES" or "Y" or "1" or "JA" or "OUI" or "SI" or "SÍ" or "TAK";
        gaps.Assume(ResolvedField.NeedsPrint, AssumptionBasis.Default);
        return false;
    }
}
