using TagService.Domain.Profiles;

namespace TagService.Domain.Recommendations;

/// <summary>
/// What to ask the asset's owner. Each assumed field is varied over its plausible values; a question is worth the
/// money that a wrong assumption would cost on average: the dearer class where both would do, a second visit where the
/// chosen class would not do at all.
/// </summary>
internal static class QuestionFinder
{
    /// <summary>Below this (in the answer's currency) a question is not worth the asking.</summary>
    private const double LeastSaving = 0.005;

    public static IReadOnlyList<Question> Find(
        AssetRecord record, Resolution resolution, AssetJudge judge, in ClassEvaluation chosen)
    {
        var questions = new List<Question>();
        var plausible = PlausibleAnswers.Of(resolution.Asset.Profile);
        foreach (var assumption in resolution.Assumptions)
        {
            if (!plausible.TryGetValue(assumption.Pointer, out var answers))
                continue;
            var question = Ask(record, resolution, judge, chosen, assumption, answers);
            if (question is not null)
                questions.Add(question);
        }

        questions.Sort(static (a, b) =>
        {
            var order = b.ExpectedSaving.CompareTo(a.ExpectedSaving);
            return order != 0 ? order : string.CompareOrdinal(a.Pointer, b.Pointer);
        });
        return questions;
    }

    private static Question? Ask(
        AssetRecord record, Resolution resolution, AssetJudge judge, in ClassEvaluation chosen, Assumption assumption,
        PlausibleAnswers plausible)
    {
        var options = new List<QuestionOption>(plausible.Answers.Count);
        double saving = 0;
        // A general answer can be true only where the assumption is not.
        var doubt = plausible.OfProfile ? 1 : 1 - assumption.Confidence;
        foreach (var answer in plausible.Answers)
        {
            var varied = judge.Vary(ProfileResolution.Vary(record, resolution, answer.Values));
            var best = varied.Choice();
            var changes = (best is null) == chosen.Fits || (best is { } b && b.TagClass.Id != chosen.TagClass.Id);
            if (changes)
                saving += doubt * answer.Share * Regret(varied, chosen, best) * judge.Asset.PriceFactor / varied.Asset.PriceFactor;
            options.Add(new(answer.Text, answer.Share, best?.TagClass.Id, changes));
        }

        return saving < LeastSaving && !options.Exists(o => o.ChangesChoice)
            ? null
            : new(assumption.Pointer, plausible.Text, assumption.Assumed, options, saving);
    }

    // In the varied asset's currency, which an answer about the labour rate can change: the caller carries it back.
    private static double Regret(AssetJudge varied, in ClassEvaluation chosen, ClassEvaluation? best)
    {
        var same = varied.OfClass(chosen.TagClass);
        if (chosen.Fits && same.Fits && best is { } b)
            return Math.Max(0, same.Cost - b.Cost);
        // The chosen class would fail its check: the tag and a whole second visit are lost.
        var c = varied.CostCaseOf(same);
        return c.TagPrice + c.ConsumablesPrice + c.Labour(c.VisitMinutes + c.FixingMinutes);
    }
}
