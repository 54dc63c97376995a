using System.Globalization;
using TagService.Domain.Identity;
using TagService.Domain.Numbering;

namespace TagService.Storage.Numbering;

/// <summary>What asking for numbers came to.</summary>
public abstract record NumberOutcome
{
    private NumberOutcome()
    {
    }

    /// <summary>Consecutive numbers that nobody else has or will get.</summary>
    /// <param name="RuleId">The rule they come from.</param>
    /// <param name="Rule">How they become identities, as it was when they were taken.</param>
    /// <param name="First">The first.</param>
    /// <param name="Count">How many.</param>
    public sealed record Taken(string RuleId, NumberingRule Rule, long First, int Count) : NumberOutcome
    {
        /// <summary>The numbers.</summary>
        public IEnumerable<long> Numbers => Enumerable.Range(0, Count).Select(i => First + i);

        /// <summary>The bits to write for each; a stored rule was checked to go into its scheme with every number.</summary>
        public IEnumerable<EncodedEpc> Encoded => Numbers.Select(n => Rule.Encode(n) as EncodedEpc
            ?? throw new InvalidOperationException($"The numbering rule {RuleId} hands out {n}, which does not go into {Rule.Scheme}."));
    }

    /// <summary>No rule to take from.</summary>
    /// <param name="RuleId">The rule asked for; null: the default one.</param>
    public sealed record NoRule(string? RuleId) : NumberOutcome
    {
        /// <summary>In words, with what to do.</summary>
        public string Sentence => RuleId is null
            ? "No numbering rule is the default one; set isDefault on a rule of /v1/numbering-rules, or name a rule."
            : $"No numbering rule has the id {RuleId}; /v1/numbering-rules lists them all.";
    }

    /// <summary>The rule has fewer numbers left than asked for; none was taken.</summary>
    /// <param name="RuleId">The rule.</param>
    /// <param name="Asked">Numbers asked for.</param>
    /// <param name="Left">Numbers left.</param>
    public sealed record Exhausted(string RuleId, int Asked, long Left) : NumberOutcome
    {
        /// <summary>In words, with what to do.</summary>
        public string Sentence => string.Create(
            CultureInfo.InvariantCulture,
            $"The numbering rule {RuleId} has {Left} numbers left, and {Asked} were asked for; raise its lastNumber if its scheme allows, or set up another rule with other leading characters.");
    }
}
