using TagService.Domain.Words;

namespace TagService.Domain.Profiles;

/// <summary>Turns hits into the chances of each profile; the rule stands at <see cref="ProfileMatcher"/>.</summary>
internal static class ProfileRanking
{
    private const double HeadShare = 0.8;
    private const double AsideShare = 0.9;
    private const double MostConfidence = 0.99;
    private const double LeastConfidence = 0.3;
    private const double LeastAlternative = 0.02;
    private const int MostAlternatives = 5;

    public static readonly ProfileMatch Nothing = new(AssetProfiles.Unknown, 0, [], []);

    public static ProfileMatch Of(ReadOnlySpan<PhraseHit> hits, ReadOnlySpan<ProfileWitness> witnesses)
    {
        var profiles = AssetProfiles.Table.All;
        Span<double> chance = stackalloc double[profiles.Count];
        Span<double> mass = stackalloc double[profiles.Count];
        chance.Fill(1);
        var onlyBroad = true;
        foreach (var hit in hits)
            onlyBroad &= ProfileMatcher.IsBroad(hit.Phrase);
        foreach (var witness in witnesses)
            Listen(hits.Slice(witness.Hit, witness.Count), witness.Weight, !onlyBroad, mass, chance);

        double sum = 0;
        foreach (var c in chance)
            sum += c;
        var best = 0;
        for (var p = 1; p < chance.Length; p++)
        {
            if (chance[p] > chance[best])
                best = p;
        }

        var confidence = Math.Min(MostConfidence, Math.Round(chance[best] / sum, 3));
        return confidence < LeastConfidence
            ? new(AssetProfiles.Unknown, 0, Words(hits, -1), Others(chance, sum, -1))
            : new(profiles[best], confidence, Words(hits, best), Others(chance, sum, best));
    }

    private static void Listen(
        ReadOnlySpan<PhraseHit> hits, double weight, bool skipBroad, Span<double> mass, Span<double> chance)
    {
        var head = Head(hits, skipBroad);
        if (head < 0)
            return;
        mass.Clear();
        var clause = hits[head].Clause;
        int beside = 0, aside = 0;
        for (var i = 0; i < hits.Length; i++)
        {
            if (i == head || (skipBroad && ProfileMatcher.IsBroad(hits[i].Phrase)))
                continue;
            if (hits[i].Clause == clause)
                beside++;
            else
                aside++;
        }

        weight *= PhraseHit.Trust(hits[head].Quality);
        var headShare = beside > 0 ? HeadShare : aside > 0 ? AsideShare : 1;
        for (var i = 0; i < hits.Length; i++)
        {
            if (skipBroad && ProfileMatcher.IsBroad(hits[i].Phrase))
                continue;
            var share = i == head ? headShare : (1 - headShare) / (beside + aside);
            var rows = ProfileMatcher.Phrases[hits[i].Phrase].Rows;
            foreach (var row in rows)
                mass[row] += weight * share / rows.Count;
        }

        // What the field leaves open falls evenly on all profiles.
        var open = (1 - weight) / chance.Length;
        for (var p = 0; p < chance.Length; p++)
            chance[p] *= mass[p] + open;
    }

    // The head of the first clause that has a hit.
    private static int Head(ReadOnlySpan<PhraseHit> hits, bool skipBroad)
    {
        int first = -1, last = -1, longest = -1;
        var common = Languages.Any;
        for (var i = 0; i < hits.Length; i++)
        {
            if (skipBroad && ProfileMatcher.IsBroad(hits[i].Phrase))
                continue;
            if (first >= 0 && hits[i].Clause != hits[first].Clause)
                break;
            first = first < 0 ? i : first;
            last = i;
            longest = longest < 0 || hits[i].Count > hits[longest].Count ? i : longest;
            common &= ProfileMatcher.Phrases[hits[i].Phrase].Languages;
        }

        if (common == Languages.None)
            return longest;
        return (common & Languages.HeadLast) != 0 ? last : first;
    }

    private static string[] Words(ReadOnlySpan<PhraseHit> hits, int profile)
    {
        var words = new List<string>(hits.Length);
        foreach (var hit in hits)
        {
            var entry = ProfileMatcher.Phrases[hit.Phrase];
            if ((profile < 0 || entry.Rows.Contains(profile)) && !words.Contains(entry.Text))
                words.Add(entry.Text);
        }

        return [.. words];
    }

    private static AssetProfile[] Others(ReadOnlySpan<double> chance, double sum, int best)
    {
        Span<int> order = stackalloc int[MostAlternatives];
        var n = 0;
        for (var p = 0; p < chance.Length; p++)
        {
            if (p == best || chance[p] < LeastAlternative * sum)
                continue;
            var at = n;
            while (at > 0 && chance[order[at - 1]] < chance[p])
                at--;
            if (at == MostAlternatives)
                continue;
            n = Math.Min(n + 1, MostAlternatives);
            for (var k = n - 1; k > at; k--)
                order[k] = order[k - 1];
            order[at] = p;
        }

        var others = new AssetProfile[n];
        for (var i = 0; i < n; i++)
            others[i] = AssetProfiles.Table.All[order[i]];
        return others;
    }
}
