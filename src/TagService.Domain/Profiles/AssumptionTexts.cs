using TagService.Domain.Recommendations;
using TagService.Domain.Words;

namespace TagService.Domain.Profiles;

/// <summary>Writes the assumptions of a resolution.</summary>
internal static class AssumptionTexts
{
    private const double SettingConfidence = 0.7;
    private const double DerivedConfidence = 0.7;
    private const double LeastConfidence = 0.1;
    private const double DefaultConfidence = 0.5;

    public static IReadOnlyList<Assumption> Of(Resolution resolution, Gaps gaps)
    {
        var list = new List<Assumption>(ResolvedFields.Count);
        // The same for all fields that come from profile or setting.
        string? ofProfile = null, ofSetting = null;
        for (var i = 0; i < ResolvedFields.Count; i++)
        {
            var field = (ResolvedField)i;
            if (gaps.BasisOf(field) is not { } basis)
                continue;
            var pointer = ResolvedFields.PointerOf(field);
            list.Add(new(
                pointer,
                AssumedTexts.Of(field, resolution.Asset),
                basis switch
                {
                    AssumptionBasis.Profile => ofProfile ??= BecauseOfProfile(resolution.Match),
                    AssumptionBasis.Setting => ofSetting ??= $"usual in the setting {Settings.Of(resolution.Asset.Setting).Name}",
                    AssumptionBasis.Default => ProductDefault.Table.Find(pointer)?.Because ?? "nothing else is known",
                    _ => DerivedTexts.Of(pointer, resolution.Asset),
                },
                Math.Round(Confidence(pointer, basis, resolution, gaps), 2),
                basis));
        }

        return list;
    }

    private static string BecauseOfProfile(ProfileMatch match) => match.Confidence == 0
        ? "nothing in the record says what the asset is; a broad default is used"
        : InvariantText.Of($"typical of the profile {match.Profile.Name} (recognised by {string.Join(", ", match.MatchedWords)}; confidence {match.Confidence:0.##})");

    private static double Confidence(string pointer, AssumptionBasis basis, Resolution resolution, Gaps gaps) => basis switch
    {
        AssumptionBasis.Profile => ProfileConfidence(pointer, resolution.Match),
        AssumptionBasis.Setting => SettingConfidence * (gaps.BasisOf(ResolvedField.Setting) is null
            ? 1
            : ProfileConfidence(ResolvedFields.PointerOf(ResolvedField.Setting), resolution.Match)),
        AssumptionBasis.Default => ProductDefault.Table.Find(pointer)?.Confidence ?? DefaultConfidence,
        _ => DerivedConfidence,
    };

    private static double ProfileConfidence(string pointer, ProfileMatch match)
    {
        var others = 0.0;
        foreach (var alternative in match.Profile.Alternatives)
        {
            if (string.Equals(alternative.Field, pointer, StringComparison.Ordinal))
                others += alternative.Share;
        }

        return Math.Max(LeastConfidence, match.Confidence * (1 - others));
    }
}

/// <summary>Why a derived value follows.</summary>
internal static class DerivedTexts
{
    public static string Of(string pointer, ResolvedAsset asset) => pointer switch
    {
        "/surface/coating" => "the words for the material name it",
        "/surface/thicknessMm" => $"usual wall of {asset.Material.Name}",
        "/surface/backing" => "the contents conduct and the wall lets the field through",
        "/mounting/lengthMm" or "/mounting/widthMm" => "the length is the longer side",
        "/environment/temperatureMinC" or "/environment/temperatureMaxC" or "/environment/peakTemperatureC" =>
            "must agree with the temperatures given",
        "/environment/ipRequired" => "pressure washing asks for water level 9, immersion for 8 (IEC 60529)",
        "/service/currency" => InvariantText.Of($"no exchange rate is assumed: built-in prices of tags and consumables are planning values in {ProductDefault.All.Service!.Currency} and are multiplied with {asset.PriceFactor:0.####}, the labour rate given divided by {ProductDefault.All.Service.LabourRatePerHour:0.##} {ProductDefault.All.Service.Currency}/h, so that they cost as many minutes of labour as there; your own prices in {asset.Currency} are taken as they are"),
        "/environment/uvYears" => InvariantText.Of($"the setting's share of full sun ({Settings.Of(asset.Setting).SunShare:0.##}) times the life"),
        _ => "the reader kind's own planning value",
    };
}
