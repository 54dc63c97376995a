using TagService.Domain.Radio;
using TagService.Domain.Suitability;
using TagService.Domain.Words;

namespace TagService.Domain.Recommendations;

/// <summary>When nothing suits: which single change would let a class in.</summary>
internal static class Remedies
{
    private const int Shown = 5;

    /// <summary>Looks at every class for broken rules of one family (room, water, ...), a shorter distance or another reader.</summary>
    public static NoneBecause Find(AssetJudge judge, ClassEvaluation[] ranked)
    {
        var asset = judge.Asset;
        var changes = new List<(double Cost, NeededChange Change)>();
        foreach (var e in ranked)
        {
            if (e.Verdict == CandidateVerdict.ShortOfRange)
                changes.AddRange(ForRange(judge, e));
            else if (e.Probability >= asset.RequiredProbability && ForRules(new(asset, e.TagClass, e.Method, judge.Context.AsOf)) is { } change)
                changes.Add((e.Cost, change));
        }

        var shown = changes
            .OrderBy(c => c.Cost)
            .Select(c => c.Change)
            .DistinctBy(c => (c.What, c.To))
            .Take(Shown)
            .ToList();
        return new(Summary(asset, ranked, shown.Count), shown);
    }

    private static string Summary(ResolvedAsset asset, ClassEvaluation[] ranked, int changes)
    {
        var shortOfRange = ranked.Count(e => e.Verdict == CandidateVerdict.ShortOfRange);
        var broken = ranked.Count(e => e.Verdict == CandidateVerdict.Unsuitable);
        var what = InvariantText.Of($"Of {ranked.Length} tag classes {broken} break a suitability rule and {shortOfRange} would not read at {asset.RequiredRangeM:0.##} m with {asset.RequiredProbability:P0}.");
        return changes > 0
            ? $"{what} The changes below would each let a class in."
            : $"{what} No single change lets a class in; several would have to change together.";
    }

    private static NeededChange? ForRules(SuitabilityCase c)
    {
        string? family = null;
        List<(string From, string To, string Sentence)> broken = [];
        foreach (var rule in SuitabilityRules.All)
        {
            var finding = rule.Evaluate(c);
            if (finding.Verdict != RuleVerdict.Fail)
                continue;
            if (family is not null && family != rule.Family)
                return null;
            family = rule.Family;
            broken.Add((finding.Needed.ToString(), finding.Offered.ToString(), rule.Explain(c, finding)));
        }

        return family is null ? null : new(
            family,
            string.Join("; ", broken.Select(b => b.From)),
            string.Join("; ", broken.Select(b => b.To)),
            c.TagClass.Id,
            $"{c.TagClass.Name}: {string.Join(" ", broken.Select(b => b.Sentence))}");
    }

    private static IEnumerable<(double Cost, NeededChange Change)> ForRange(AssetJudge judge, ClassEvaluation e)
    {
        var asset = judge.Asset;
        var reach = e.Prediction.RangeAtProbability(asset.RequiredProbability, asset.Reading.Looks);
        if (reach > 0.01)
            yield return (e.Cost, new(
                "reading distance",
                InvariantText.Of($"{asset.RequiredRangeM:0.##} m"),
                InvariantText.Of($"{reach:0.00} m"),
                e.TagClass.Id,
                InvariantText.Of($"{e.TagClass.Name} reads with {asset.RequiredProbability:P0} up to {reach:0.00} m instead of the {asset.RequiredRangeM:0.##} m wanted.")));
        foreach (var reader in RadioTables.Readers.All)
        {
            if (reader.Kind == asset.Reading.Reader.Kind)
                continue;
            // The user's own power, gain and sensitivity belong to the reader that is being exchanged.
            var other = asset with
            {
                Reading = asset.Reading with
                {
                    Reader = reader, EirpDbm = null, ReaderGainDbi = null, ReaderSensitivityDbm = null,
                },
            };
            var better = judge.Vary(other).OfClass(e.TagClass);
            if (better.Fits)
                yield return (better.Cost, new(
                    "reader", asset.Reading.Reader.Name, reader.Name, e.TagClass.Id,
                    InvariantText.Of($"With a {reader.Name} {e.TagClass.Name} reads at {asset.RequiredRangeM:0.##} m with {better.Probability:P0}.")));
        }
    }
}
