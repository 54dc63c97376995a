using TagService.Domain.TagClasses;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The room a tag takes when it is fixed in a certain way, in mm.</summary>
internal static class Footprint
{
    /// <summary>Cover in mm over an embedded tag: planning value, common practice.</summary>
    private const double CoverMm = 0.5;

    /// <summary>Longer side on the surface, with the free margin on both ends.</summary>
    public static double LongMm(in SuitabilityCase c) => c.Method.Kind switch
    {
        AttachmentKind.Animal => 0,
        AttachmentKind.Nail when IsPin(c.TagClass.Size) => HeadMm(c),
        _ => Math.Max(c.TagClass.Size.LengthMm, c.TagClass.Size.WidthMm) + (2 * c.Method.MarginMm),
    };

    /// <summary>Shorter side on the surface, with the free margin on both ends.</summary>
    public static double ShortMm(in SuitabilityCase c) => c.Method.Kind switch
    {
        AttachmentKind.Animal => 0,
        AttachmentKind.Nail when IsPin(c.TagClass.Size) => HeadMm(c),
        _ => Math.Min(c.TagClass.Size.LengthMm, c.TagClass.Size.WidthMm) + (2 * c.Method.MarginMm),
    };

    /// <summary>Height above the surface, the fixing's own standoff included.</summary>
    public static double HeightMm(in SuitabilityCase c) => c.Method.Kind switch
    {
        AttachmentKind.Animal or AttachmentKind.Embed => 0,
        AttachmentKind.Nail when IsPin(c.TagClass.Size) => 0,
        _ => c.TagClass.Size.HeightMm + c.Method.AddedStandoffMm,
    };

    /// <summary>Depth below the surface.</summary>
    public static double DepthMm(in SuitabilityCase c) => c.Method.Kind switch
    {
        AttachmentKind.Embed => c.TagClass.Size.HeightMm + CoverMm,
        AttachmentKind.Nail when IsPin(c.TagClass.Size) => c.TagClass.Size.LengthMm,
        _ => 0,
    };

    /// <summary>A pin stands on its length: it is driven in, not laid on.</summary>
    private static bool IsPin(TagSize size) =>
        size.WidthMm == size.HeightMm && size.LengthMm > 2 * size.WidthMm;

    private static double HeadMm(in SuitabilityCase c) => c.TagClass.Size.WidthMm + (2 * c.Method.MarginMm);
}
