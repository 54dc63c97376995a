using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;
using TagService.Domain.Units;
using TagService.Domain.Words;

namespace TagService.Domain.Fitting;

/// <summary>What a freshly fitted tag must do to be accepted: <see cref="UhfCheck"/>, <see cref="HfCheck"/> or <see cref="NoCheck"/>.</summary>
public abstract record AcceptanceCheck
{
    private protected AcceptanceCheck()
    {
    }

    /// <summary>What to do, in one sentence. Powers are rounded down and never up: a weaker signal is the stricter check.</summary>
    public abstract string Sentence { get; }

    /// <summary>
    /// The check for a class on an asset. UHF: at the usual check distance with the power of <see cref="CheckEirpDbm"/>; where the
    /// reader cannot be turned down that far, at the distance from which its lowest power is right; never farther than the wanted
    /// distance. HF: with the reader itself at the wanted distance, since its field falls by another law and has no power setting.
    /// </summary>
    /// <param name="asset">The asset with its wanted distance, reader and place.</param>
    /// <param name="tagClass">The class to be fitted.</param>
    /// <param name="method">Its fixing.</param>
    /// <returns>
    /// Distances in m, powers in dBm. Tested: a tag of whatever gain passes the check exactly where the link budget lets it answer at
    /// the wanted distance, over all readers, sites and regions; Friis in watts by hand.
    /// </returns>
    public static AcceptanceCheck For(ResolvedAsset asset, TagClass tagClass, AttachmentMethod method)
    {
        ArgumentNullException.ThrowIfNull(asset);
        ArgumentNullException.ThrowIfNull(tagClass);
        ArgumentNullException.ThrowIfNull(method);
        return For(SceneSet.SceneOf(asset, method.AddedStandoffMm).Predict(tagClass), asset.RequiredRangeM);
    }

    /// <summary>The same of a prediction that is there already.</summary>
    /// <param name="prediction">The class on the asset with the spacing of its fixing.</param>
    /// <param name="wantedM">Distance in m at which it has to answer in use.</param>
    internal static AcceptanceCheck For(RangePrediction prediction, double wantedM)
    {
        if (prediction.LimitedBy == RangeLimit.WrongReader)
            return new NoCheck(prediction.Estimate.DoesNotReadBecause!);
        return prediction.Tag.Technology == TagTechnology.Uhf
            ? Uhf(prediction.Scene, prediction.ForwardDb - prediction.ReturnDb, wantedM)
            : new HfCheck(wantedM, prediction.Scene.Reading.Reader.Name);
    }

    /// <summary>
    /// Radiated power at which a tag answers at the check distance exactly if it would answer at the wanted one:
    /// P' = P - d - min(d, max(0, x)), d = L(wanted) - L(check), x = forward less return path loss borne. Where the chip's power-up is
    /// the limit (x up to 0), both ends of the link see the wanted distance again, P' = P - d. Where the reply is the limit, the reply
    /// crosses the shorter path twice and gains 2 d while the power falls once, so that the power has to come down by up to d more.
    /// Exact for the link budget; multipath and a tag that is turned are not in it. Source: both limits of <see cref="LinkBudget"/>
    /// (Friis 1946; RFID Handbook, CRC 2008, eq. 4.4 and 4.6, read) solved for the tag gain at which either is just met.
    /// </summary>
    /// <param name="eirpDbm">P: power radiated in use, dBm EIRP.</param>
    /// <param name="wantedLossDb">Path loss at the wanted distance, dB.</param>
    /// <param name="checkLossDb">Path loss at the check distance, dB, not above the other.</param>
    /// <param name="forwardLessReturnDb">x: path loss borne forward less the one borne by the reply, dB one way.</param>
    /// <returns>dBm EIRP.</returns>
    public static double CheckEirpDbm(double eirpDbm, double wantedLossDb, double checkLossDb, double forwardLessReturnDb)
    {
        var nearer = Guard.NotNegative(wantedLossDb - checkLossDb);
        return eirpDbm - nearer - Math.Min(nearer, Math.Max(0, forwardLessReturnDb));
    }

    /// <summary>How much nearer in dB of path loss a check may be made for a given drop in power: the inverse of <see cref="CheckEirpDbm"/>.</summary>
    private static double NearerDb(double dropDb, double forwardLessReturnDb)
    {
        var reply = Math.Max(0, forwardLessReturnDb);
        return dropDb <= 2 * reply ? dropDb / 2 : dropDb - reply;
    }

    private static UhfCheck Uhf(RadioScene scene, double forwardLessReturnDb, double wantedM)
    {
        var lowest = FittingPlanning.LowestConductedDbm + scene.ReaderGainDbi;
        var wantedLoss = scene.Path.LossDb(wantedM);
        var distance = Math.Min(FittingPlanning.CheckDistanceM, wantedM);
        var floored = Power(distance) < lowest;
        if (floored)
        {
            var reach = scene.Path.DistanceM(wantedLoss - NearerDb(Math.Max(0, scene.EirpDbm - lowest), forwardLessReturnDb));
            // The rounding must not undo itself on a distance that is a multiple already.
            var rounded = Math.Ceiling((reach / FittingPlanning.CheckDistanceStepM) - 1e-9) * FittingPlanning.CheckDistanceStepM;
            distance = Math.Min(wantedM, rounded);
        }

        return new()
        {
            DistanceM = distance,
            EirpDbm = Power(distance),
            ReaderGainDbi = scene.ReaderGainDbi,
            WantedRangeM = wantedM,
            WantedEirpDbm = scene.EirpDbm,
            NearerDb = wantedLoss - scene.Path.LossDb(distance),
            ReplyLimits = forwardLessReturnDb > 0,
            LengthenedForLowestPower = floored,
        };

        double Power(double distanceM) =>
            CheckEirpDbm(scene.EirpDbm, wantedLoss, scene.Path.LossDb(distanceM), forwardLessReturnDb);
    }
}

/// <summary>UHF: a shorter distance with less power.</summary>
public sealed record UhfCheck : AcceptanceCheck
{
    /// <summary>Distance between reader antenna and tag, m.</summary>
    public required double DistanceM { get; init; }

    /// <summary>Radiated power to set, dBm EIRP.</summary>
    public required double EirpDbm { get; init; }

    /// <summary>Gain of the reader antenna that <see cref="ConductedDbm"/> holds for, dBi.</summary>
    public required double ReaderGainDbi { get; init; }

    /// <summary>The same power at the antenna's connector, dBm: EIRP less the gain; cable loss comes on top.</summary>
    public double ConductedDbm => EirpDbm - ReaderGainDbi;

    /// <inheritdoc />
    public override string Sentence => InvariantText.Of(
        $"The fitted tag must answer at {DistanceM:0.##} m with the reader set to {Down(ConductedDbm):0.0} dBm at its antenna connector ({Down(EirpDbm):0.0} dBm EIRP with a {ReaderGainDbi:0.#} dBi antenna); if the reader has no such setting, take the next lower one.");

    /// <summary>Distance at which the tag has to answer in use, m.</summary>
    public required double WantedRangeM { get; init; }

    /// <summary>Power radiated in use, dBm EIRP.</summary>
    public required double WantedEirpDbm { get; init; }

    /// <summary>Path loss that the shorter distance saves, dB.</summary>
    public required double NearerDb { get; init; }

    /// <summary>In use the tag's reply is the limit, not the power that reaches the chip.</summary>
    public required bool ReplyLimits { get; init; }

    /// <summary>The usual check distance would need less power than readers are taken to go down to, so it is longer.</summary>
    public required bool LengthenedForLowestPower { get; init; }

    /// <summary>A power as it is set: tenths of a dB, rounded down.</summary>
    /// <param name="dbm">The power, dBm.</param>
    /// <returns>The same or up to 0.1 dB less, dBm.</returns>
    public static double Down(double dbm) => Math.Floor((dbm * 10) + 1e-6) / 10;
}

/// <summary>HF: the reader itself at the wanted distance.</summary>
/// <param name="DistanceM">Distance between reader and tag, m.</param>
/// <param name="ReaderName">The kind of reader.</param>
public sealed record HfCheck(double DistanceM, string ReaderName) : AcceptanceCheck
{
    /// <inheritdoc />
    public override string Sentence => InvariantText.Of($"The fitted tag must answer the {ReaderName} at {DistanceM:0.###} m, reader and tag parallel.");
}

/// <summary>No check is possible: the reader does not speak the tag's air interface.</summary>
/// <param name="Reason">Why, in one sentence.</param>
public sealed record NoCheck(string Reason) : AcceptanceCheck
{
    /// <inheritdoc />
    public override string Sentence => $"No check with the reader named in the record: {Reason}";
}
