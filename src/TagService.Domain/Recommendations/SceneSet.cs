using TagService.Domain.Radio;

namespace TagService.Domain.Recommendations;

/// <summary>The scenes of one asset, one for each spacing that a fixing adds, and the predictions made in them.</summary>
/// <param name="asset">The asset.</param>
/// <param name="context">Catalogue and measured ranges.</param>
/// <param name="predictions">How many predictions are to be expected.</param>
internal sealed class SceneSet(ResolvedAsset asset, RecommendationContext context, int predictions)
{
    private readonly List<RadioScene> _scenes = new(4);
    private readonly Dictionary<int, RangePrediction> _known = new(predictions);

    /// <summary>Expected range of a class with what a fixing puts under it, both by index.</summary>
    public RangePrediction Predict(int tagClass, int method)
    {
        var catalogue = context.Catalogue;
        var scene = IndexOfScene(catalogue.Methods[method].AddedStandoffMm);
        var key = (scene * catalogue.Classes.Length) + tagClass;
        if (!_known.TryGetValue(key, out var known))
        {
            var tag = catalogue.Classes[tagClass];
            _known[key] = known = _scenes[scene].Predict(tag, context.Calibrations.For(tag.Id, asset.Material.Id));
        }

        return known;
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

    private int IndexOfScene(double standoffMm)
    {
        for (var i = 0; i < _scenes.Count; i++)
        {
            if (_scenes[i].Surface.AddedStandoffMm == standoffMm)
                return i;
        }

        _scenes.Add(_scenes.Count > 0 ? _scenes[0].WithStandoff(standoffMm) : SceneOf(asset, standoffMm));
        return _scenes.Count - 1;
    }
}
