using TagService.Domain.Recommendations;
using TagService.Domain.Surfaces;

namespace TagService.Domain.Profiles;

/// <summary>Fills the surface.</summary>
internal readonly record struct SurfacePart(
    Material Material, Coating Coating, double CurvatureRadiusMm, double ThicknessMm, Material Backing)
{
    public static SurfacePart Resolve(
        SurfaceRecord? given, string? contents, CompiledProfile profile, ProfileValues typical, Gaps gaps)
    {
        var material = MaterialOf(given, profile, gaps);
        var same = ReferenceEquals(material, profile.Material);
        return new(
            material,
            CoatingOf(given, material, profile, gaps),
            gaps.Pick(
                ResolvedField.CurvatureRadiusMm, given?.CurvatureRadiusMm, typical.Surface!.CurvatureRadiusMm,
                ProductDefault.All.Surface!.CurvatureRadiusMm),
            Thickness(given?.ThicknessMm, same ? typical.Surface.ThicknessMm : null, material, gaps),
            BackingOf(given, contents, material, same, profile, gaps));
    }

    private static Material MaterialOf(SurfaceRecord? given, CompiledProfile profile, Gaps gaps)
    {
        if (Given(given?.Material) is { } text)
        {
            if (Materials.Find(text) is { } found)
                return found;
            gaps.Miss(ResolvedField.Material, text);
        }

        gaps.Assume(ResolvedField.Material, AssumptionBasis.Profile);
        return profile.Material;
    }

    private static Coating CoatingOf(SurfaceRecord? given, Material material, CompiledProfile profile, Gaps gaps)
    {
        if (Given(given?.Coating) is { } text)
        {
            if (Coatings.Find(text) is { } found)
                return found;
            gaps.Miss(ResolvedField.Coating, text);
        }

        // "verzinkter Stahl" says both; but "paint" is not looked for in an id such as "steel".
        if (given?.Material is { } words && words.Contains(' ', StringComparison.Ordinal) && Coatings.Find(words) is { } within)
        {
            gaps.Assume(ResolvedField.Coating, AssumptionBasis.Derived);
            return within;
        }

        if (profile.Coating is { } usual && KeepsCoating(material, profile.Material))
        {
            gaps.Assume(ResolvedField.Coating, AssumptionBasis.Profile);
            return usual;
        }

        gaps.Assume(ResolvedField.Coating, AssumptionBasis.Default);
        return DefaultCoating;
    }

    // A profile's coating goes with its material: painted cast iron is painted steel, but stainless steel is bare.
    private static bool KeepsCoating(Material material, Material usual) =>
        ReferenceEquals(material, usual) || (IsPaintedMetal(material) && IsPaintedMetal(usual));

    private static bool IsPaintedMetal(Material material) => material.Id is "steel" or "cast-iron";

    private static double Thickness(double? given, double? usual, Material material, Gaps gaps)
    {
        if (given is { } g)
            return g;
        gaps.Assume(ResolvedField.ThicknessMm, usual is null ? AssumptionBasis.Derived : AssumptionBasis.Profile);
        return usual ?? material.TypicalThicknessMm;
    }

    private static Material BackingOf(
        SurfaceRecord? given, string? givenContents, Material material, bool same, CompiledProfile profile, Gaps gaps)
    {
        var contents = ContentsOf(givenContents, profile, gaps);
        if (Given(given?.Backing) is { } text)
        {
            if (Materials.Find(text) is { } found)
                return found;
            gaps.Miss(ResolvedField.Backing, text);
        }

        // Only a wall that lets the field through shows the tag what is inside.
        if (contents is { Kind: MaterialKind.Liquid } && material.Kind != MaterialKind.Metal)
        {
            gaps.Assume(ResolvedField.Backing, AssumptionBasis.Derived);
            return contents;
        }

        if (same && profile.Backing is { } usual)
        {
            gaps.Assume(ResolvedField.Backing, AssumptionBasis.Profile);
            return usual;
        }

        gaps.Assume(ResolvedField.Backing, AssumptionBasis.Default);
        return Materials.Air;
    }

    private static Material? ContentsOf(string? given, CompiledProfile profile, Gaps gaps)
    {
        if (Given(given) is { } text)
        {
            if (Materials.Find(text) is { } found)
                return found;
            gaps.Miss(ResolvedField.Contents, text);
        }

        gaps.Assume(ResolvedField.Contents, profile.Contents is null ? AssumptionBasis.Default : AssumptionBasis.Profile);
        return profile.Contents;
    }

    private static string? Given(string? text) => string.IsNullOrWhiteSpace(text) ? null : text;

    private static readonly Coating DefaultCoating = Coatings.Table[ProductDefault.All.Surface!.Coating!];
}
