using TagService.Domain.Radio;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Recommendations;

/// <summary>The scenes of one asset, one for each spacing that a fixing adds, and the predictions made in them.</summary>
/// <param name="asset">The asset.</param>
/// <param name="context">Catalogue and measured ranges.</param>
internal sealed class SceneSet(ResolvedAsset asset, RecommendationContext context)
{
    // A catalogue's fixings add a few different spacings.
    private readonly List<(RadioScene Scene, RangePrediction?[] Known)> _scenes = new(4);

    /// <summary>Expected range of a class with what a fixing puts under it, both by index.</summary>
    public RangePrediction Predict(int tagClass, int method)
    {
        var catalogue = context.Catalogue;
        var (scene, known) = SceneWith(catalogue.Methods[method].AddedStandoffMm);
        return known[tagClass] ??= Predict(scene, catalogue.Classes[tagClass]);
    }

    /// <summary>The scene of an asset with a spacing under the tag.</summary>
    /// <remarks>The mounting's height limits the curve over spacers only: whoever draws it states it there.</remarks>
    public static RadioScene SceneOf(ResolvedAsset asset, double standoffMm) => new(
        new()
        {
            Material = asset.Material,
            ThicknessMm = asset.ThicknessMm,
            Backing = asset.Backing,
            AddedStandoffMm = standoffMm,
            LengthMm = asset.LengthMm,
            WidthMm = asset.WidthMm,
        },
        asset.Reading);

    private RangePrediction Predict(RadioScene scene, TagClass tagClass) =>
        scene.Predict(tagClass, context.Calibrations.For(tagClass.Id, asset.Material.Id));

    private (RadioScene Scene, RangePrediction?[] Known) SceneWith(double standoffMm)
    {
        foreach (var known in _scenes)
        {
            if (known.Scene.Surface.AddedStandoffMm == standoffMm)
                return known;
        }

        var scene = _scenes.Count > 0 ? _scenes[0].Scene.WithStandoff(standoffMm) : SceneOf(asset, standoffMm);
        _scenes.Add((scene, new RangePrediction?[context.Catalogue.Classes.Length]));
        return _scenes[^1];
    }
}
