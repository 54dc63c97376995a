namespace TagService.Domain.Profiles;

/// <summary>Two given fields that cannot both be true.</summary>
/// <param name="RuleId">Stable kebab-case id of the rule that found it.</param>
/// <param name="PointerA">JSON pointer of the first field.</param>
/// <param name="ValueA">Its value as text.</param>
/// <param name="PointerB">JSON pointer of the second field.</param>
/// <param name="ValueB">Its value as text.</param>
/// <param name="Sentence">In words, with both values.</param>
public sealed record Contradiction(
    string RuleId, string PointerA, string ValueA, string PointerB, string ValueB, string Sentence);
