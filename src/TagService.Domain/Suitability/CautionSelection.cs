using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Suitability;

/// <summary>Picks the cautions that go with an asset, a tag class and a fixing.</summary>
public static class CautionSelection
{
    /// <summary>Above this a surface counts as hot for people: 60 °C, planning value near the burn thresholds of ISO 13732-1 (from memory).</summary>
    public const double HotSurfaceC = 60;

    /// <summary>The cautions, each once, the gravest first (order of the table).</summary>
    /// <param name="asset">The asset.</param>
    /// <param name="tagClass">The tag class chosen, if one is.</param>
    /// <param name="method">The fixing chosen, if one is.</param>
    public static IReadOnlyList<Caution> For(ResolvedAsset asset, TagClass? tagClass, AttachmentMethod? method)
    {
        var ids = new HashSet<string>(StringComparer.Ordinal);
        AddAssets(asset, ids);
        if (method is not null)
            AddMethods(asset, tagClass, method, ids);
        ids.UnionWith(tagClass?.Cautions ?? []);
        return [.. Cautions.All.Where(c => ids.Contains(c.Id))];
    }

    private static void AddAssets(ResolvedAsset asset, HashSet<string> ids)
    {
        foreach (var id in asset.Profile.Cautions)
            ids.Add(Cautions.Table[id].Id);
        if (asset.HazardousArea is not null)
            ids.Add("explosive-atmosphere");
        if (Math.Max(asset.TemperatureMaxC, asset.PeakTemperatureC) > HotSurfaceC)
            ids.Add("hot-surfaces");
        if (asset.Setting is Setting.Clinical)
            ids.Add("medical-equipment");
        if (asset.FoodContact)
            ids.Add("food-contact");
        foreach (var chemical in asset.Chemicals)
        {
            if (Chemicals.Families.Find(chemical)?.Caution is { } id)
                ids.Add(id);
        }

        // The reader is a transmitter whatever the tag; fixed and vehicle antennas are the strong ones.
        ids.Add("radio-transmitter");
        if (asset.Reading.Reader.Kind is ReaderKind.Fixed or ReaderKind.Vehicle)
            ids.Add("radio-exposure");
    }

    private static void AddMethods(ResolvedAsset asset, TagClass? tagClass, AttachmentMethod method, HashSet<string> ids)
    {
        ids.UnionWith(method.Cautions);
        var steps = tagClass is null ? method.Steps : FittingInstruction.IdsFor(asset, tagClass, method);
        foreach (var id in steps)
        {
            if (FittingSteps.Table[id].Caution is { } caution)
                ids.Add(caution);
        }
    }
}
