namespace TagService.Api.Pages.Fitting;

/// <summary>Fields of a record as a fitter would say them.</summary>
internal static class PlaceWords
{
    private static readonly Dictionary<string, string> Words = new(StringComparer.Ordinal)
    {
        ["/surface/material"] = "Surface material",
        ["/surface/coating"] = "Coating",
        ["/surface/curvatureRadiusMm"] = "Curvature, as a radius",
        ["/surface/thicknessMm"] = "Thickness of the wall",
        ["/surface/backing"] = "Behind the wall",
        ["/mounting/lengthMm"] = "Free length",
        ["/mounting/widthMm"] = "Free width",
        ["/mounting/maxHeightMm"] = "Height a tag may stand off",
        ["/mounting/allowDrilling"] = "Drilling allowed",
        ["/environment/applicationTemperatureC"] = "Temperature of surface and air while fitting",
        ["/environment/hazardousArea"] = "Explosive atmosphere",
    };

    /// <summary>The words for a field, or its own name.</summary>
    public static string Of(string pointer) => Words.GetValueOrDefault(pointer, pointer.Trim('/').Replace('/', ' '));
}
