using System.Globalization;
using TagService.Api.Features.Recommendations;
using TagService.Domain.Fitting;
using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;

namespace TagService.Api.Features.Fitting;

/// <summary>From the plan to the wire.</summary>
internal static class FittingMapping
{
    private const string CheckSource =
        "link budget of both directions solved for the weakest tag that still answers in use (Friis 1946; RFID Handbook, CRC 2008, eq. 4.4 and 4.6, read); path model of the place; check distance and lowest power are planning values";

    public static FittingResponse ToResponse(this PlannedFitting plan)
    {
        var (tag, method, choice) = (plan.TagClass, plan.Method, plan.Choice);
        return new(
            tag.Id, tag.Name, tag.Description, tag.Size.LengthMm, tag.Size.WidthMm, tag.Size.HeightMm, method.Id, method.Name,
            Math.Round(choice.Minutes, 1),
            new(Round(choice.Range.P10.Value), Round(choice.Range.P50.Value), Round(choice.Range.P90.Value)),
            plan.Asset.RequiredRangeM, Round(choice.RequiredRangeProbability), plan.OnlyJust,
            new(
                Surface(plan.Asset), tag.Size.LengthMm + (2 * method.MarginMm), tag.Size.WidthMm + (2 * method.MarginMm),
                Round(tag.Size.HeightMm + method.AddedStandoffMm), method.AddedStandoffMm),
            [.. plan.CautionsFirst.Select(c => c.Id)],
            [.. plan.Preparing.Select(ToResponse)],
            [.. plan.Fixing.Select(ToResponse)],
            [.. plan.CautionsOfTheReader.Select(c => c.Id)],
            plan.Writing.ToResponse(),
            plan.ToCheckResponse(),
            [.. plan.Kit.Select(k => new FittingKitResponse(k.Id, k.Name, k.Kind))]);
    }

    public static IdentityToWriteResponse ToResponse(this IdentityToWrite identity, PlannedFitting? plan, DateTimeOffset? reservedAt, string? ruleId) => new(
        identity.Key.ToString(), identity.Scheme?.Name, identity.EpcHex, identity.Bits, identity.Pc?.ToString(), identity.ElementString,
        identity.DigitalLink, reservedAt is not null, reservedAt, ruleId, plan is null ? null : identity.FitsInto(plan.TagClass));

    public static NoneBecauseResponse ToResponse(this NoneBecause none) => new(
        none.Summary, [.. none.Changes.Select(c => new NeededChangeResponse(c.What, c.From, c.To, c.TagClassId, c.Sentence))]);

    public static CautionResponse ToResponse(this Caution caution) => new(caution.Id, caution.Hazard, caution.Precaution, caution.WhoDecides);

    public static AssumptionResponse ToResponse(this Assumption assumption) => new(
        assumption.Pointer, assumption.Assumed, assumption.Because, assumption.Basis.ToString().ToLowerInvariant(), assumption.Confidence);

    public static RecordItemResponse ToResponse(this RecordItem item) => new(item.Id, item.Name, item.How, item.Why, item.Required, item.Field);

    private static FittingStepResponse ToResponse(PlannedStep step) => new(step.Id, step.Text, step.Caution?.Id);

    private static TagWritingResponse ToResponse(this WritePolicy policy) => new(
        policy.Id, policy.Name, policy.IdentityGoesTo, policy.Steps,
        [.. policy.Passwords.Select(p => new TagPasswordResponse(p.Name, p.Rule, p.From))],
        policy.Lock?.Payload.ToString(),
        [.. policy.OwnersChoices.Select(c => new OwnersChoiceResponse(c.When, c.What, c.Lock?.Payload.ToString()))],
        policy.Source);

    private static AcceptanceCheckResponse ToCheckResponse(this PlannedFitting plan)
    {
        string[] remedies = [.. plan.Remedies.Select(r => r.Text)];
        return plan.Check switch
        {
            UhfCheck c => new(
                c.Sentence, Round(c.DistanceM), UhfCheck.Down(c.EirpDbm), UhfCheck.Down(c.ConductedDbm), c.ReaderGainDbi, c.WantedRangeM, Round(c.WantedEirpDbm), Working(c), remedies, CheckSource),
            HfCheck c => new(
                c.Sentence, c.DistanceM, null, null, null, c.DistanceM, null, "The field of an HF reader has no power setting to trade for distance, so it is checked as it will be used.", remedies,
                "field of a reader coil: Finkenzeller, RFID Handbook, ch. 4 (secondary); common practice"),
            NoCheck c => new(
                c.Sentence, null, null, null, null, plan.Asset.RequiredRangeM, null, c.Reason, remedies, "common practice"),
            _ => throw new InvalidOperationException("A check is UHF, HF or none."),
        };
    }

    private static string Working(UhfCheck c)
    {
        var shorter = Text($"In use it has to answer at {c.WantedRangeM:0.##} m with {c.WantedEirpDbm:0.0} dBm EIRP. At {c.DistanceM:0.##} m the path loses {c.NearerDb:0.0} dB less");
        var turned = c.ReplyLimits
            ? ", and because in use the tag's reply is the limit, which crosses the shorter path once more, the power comes down further"
            : ", so the power comes down by as much";
        var farther = c.LengthenedForLowestPower ? " Nearer by, the reader could not be turned down far enough." : "";
        return $"{shorter}{turned}: {UhfCheck.Down(c.EirpDbm).ToString("0.0", CultureInfo.InvariantCulture)} dBm EIRP.{farther} Cable loss between reader and antenna is not included; multipath and a tag that is turned away are not either.";
    }

    private static string Surface(ResolvedAsset asset) => Text(
        $"{asset.Material.Name}; coating: {asset.Coating.Name.ToLowerInvariant()}; {(asset.CurvatureRadiusMm > 0 ? Text($"curved with a radius of {asset.CurvatureRadiusMm:0.#} mm") : "flat")}");

    private static double Round(double value) => Math.Round(value, 3);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
