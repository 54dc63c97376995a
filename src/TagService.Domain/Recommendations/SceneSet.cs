using TagService.Domain.Radio;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Recommendations;

/// <summary>The scenes of one asset, one for each spacing that a fixing adds, and the predictions made in them.</summary>
internal sealed class SceneSet(ResolvedAsset asset, RangeCalibrations calibrations)
{
    private readonly List<(double StandoffMm, RadioScene Scene)> _scenes = new(4);
    private readonly Dictionary<(TagClass, RadioScene), Known> _known = new(PairComparer.Instance);

    /// <summary>Expected range of a class with this spacing under it, and the probability of reading it at a distance.</summary>
    public (RangePrediction Prediction, double Probability) Predict(TagClass tagClass, double standoffMm, double distanceM)
    {
        var scene = Scene(standoffMm);
        if (!_known.TryGetValue((tagClass, scene), out var known))
            known = new(scene.Predict(tagClass, calibrations.For(tagClass.Id, asset.Material.Id)), double.NaN, 0);
        if (known.DistanceM != distanceM)
        {
            known = known with { DistanceM = distanceM, Probability = known.Prediction.ReadProbability(distanceM, asset.Reading.Looks) };
            _known[(tagClass, scene)] = known;
        }

        return (known.Prediction, known.Probability);
    }

    private RadioScene Scene(double standoffMm)
    {
        foreach (var (known, scene) in _scenes)
        {
            if (known == standoffMm)
                return scene;
        }

        var made = new RadioScene(
            new()
            {
                Material = asset.Material,
                ThicknessMm = asset.ThicknessMm,
                Backing = asset.Backing,
                AddedStandoffMm = standoffMm,
                LengthMm = asset.LengthMm,
                WidthMm = asset.WidthMm,
                MaxHeightMm = asset.MaxHeightMm,
            },
            asset.Reading);
        _scenes.Add((standoffMm, made));
        return made;
    }

    private readonly record struct Known(RangePrediction Prediction, double DistanceM, double Probability);

    // Records compare by value, field by field; here the same object is meant.
    private sealed class PairComparer : IEqualityComparer<(TagClass TagClass, RadioScene Scene)>
    {
        public static readonly PairComparer Instance = new();

        public bool Equals((TagClass TagClass, RadioScene Scene) x, (TagClass TagClass, RadioScene Scene) y) =>
            ReferenceEquals(x.TagClass, y.TagClass) && ReferenceEquals(x.Scene, y.Scene);

        public int GetHashCode((TagClass TagClass, RadioScene Scene) pair) => HashCode.Combine(
            System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(pair.TagClass),
            System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(pair.Scene));
    }
}
