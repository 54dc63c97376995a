using TagService.Api.Http.Json;
using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using static TagService.Api.Features.Recommendations.AnswerValues;

namespace TagService.Api.Features.Recommendations;

/// <summary>
/// Writes an answer byte for byte as the serializer writes <see cref="RecommendationResponse"/>, without making those records:
/// answers are long, and records and serializer took a fifth of the time of an answer.
/// </summary>
public static class RecommendationWriter
{
    /// <summary>Writes the answer to a single record.</summary>
    public static void Write(JsonBytes json, RecommendationAnswer answer, IReadOnlyList<Notice> ownFields)
    {
        json.Open();
        Members(json, answer, ownFields);
        json.Close();
    }

    /// <summary>Writes the answer to a line of a batch.</summary>
    public static void WriteLine(JsonBytes json, RecommendationAnswer answer, IReadOnlyList<Notice> ownFields, string? assetId, long line)
    {
        json.Open();
        Members(json, answer, ownFields);
        json.TextIfAny("assetId"u8, assetId);
        json.Number("line"u8, line);
        json.Close();
    }

    private static void Members(JsonBytes json, RecommendationAnswer answer, IReadOnlyList<Notice> ownFields)
    {
        Candidates(json, answer);
        json.Open("profile"u8);
        Members(json, answer.Profile);
        json.Close();
        json.Objects("assumptions"u8, answer.Assumptions, Members);
        json.Objects("questions"u8, answer.Questions, Members);
        json.Objects("cautions"u8, answer.Cautions, Members);
        json.Objects("notices"u8, ownFields.Count == 0 ? answer.Notices : [.. ownFields, .. answer.Notices], Members);
        json.Text("currency"u8, answer.Currency);
        json.Text("engineVersion"u8, RecommendationEngine.Version);
        json.Text("catalogueVersion"u8, answer.CatalogueVersion);
    }

    // The recommendation is the first candidate: a sixth of the answer, written once and copied.
    private static void Candidates(JsonBytes json, RecommendationAnswer answer)
    {
        if (answer.Recommendation is null)
        {
            json.Null("recommendation"u8);
            NoneBecause(json, answer.NoneBecause);
            json.Objects("candidates"u8, answer.Candidates, CandidateWriter.Members);
            return;
        }

        json.Open("recommendation"u8);
        var start = json.Length;
        CandidateWriter.Members(json, answer.Recommendation);
        var end = json.Length;
        json.Close();
        NoneBecause(json, answer.NoneBecause);
        json.Objects("candidates"u8, answer.Candidates, (json, candidate) =>
        {
            if (ReferenceEquals(candidate, answer.Recommendation))
                json.Again(start, end);
            else
                CandidateWriter.Members(json, candidate);
        });
    }

    private static void NoneBecause(JsonBytes json, NoneBecause? none)
    {
        if (none is null)
            return;
        json.Open("noneBecause"u8);
        json.Text("summary"u8, none.Summary);
        json.Objects("changes"u8, none.Changes, Members);
        json.Close();
    }

    private static void Members(JsonBytes json, NeededChange change)
    {
        json.Text("what"u8, change.What);
        json.Text("from"u8, change.From);
        json.Text("to"u8, change.To);
        json.Text("tagClassId"u8, change.TagClassId);
        json.Text("sentence"u8, change.Sentence);
    }

    private static void Members(JsonBytes json, ProfileMatch match)
    {
        json.Text("profileId"u8, match.Profile.Id);
        json.Text("name"u8, match.Profile.Name);
        json.Number("confidence"u8, match.Confidence);
        json.Texts("matchedWords"u8, match.MatchedWords);
        json.Texts("otherProfileIds"u8, [.. match.Alternatives.Select(p => p.Id)]);
    }

    private static void Members(JsonBytes json, Assumption assumption)
    {
        json.Text("pointer"u8, assumption.Pointer);
        json.Text("assumed"u8, assumption.Assumed);
        json.Text("because"u8, assumption.Because);
        json.Text("basis"u8, Kebab(assumption.Basis));
        json.Number("confidence"u8, assumption.Confidence);
    }

    private static void Members(JsonBytes json, Question question)
    {
        json.Text("pointer"u8, question.Pointer);
        json.Text("question"u8, question.Text);
        json.Text("assumed"u8, question.Assumed);
        json.Objects("options"u8, question.Options, Members);
        json.Number("expectedSaving"u8, Cents(question.ExpectedSaving));
    }

    private static void Members(JsonBytes json, QuestionOption option)
    {
        json.Text("answer"u8, option.Answer);
        json.Number("share"u8, option.Share);
        json.TextIfAny("tagClassId"u8, option.TagClassId);
        json.Flag("changesChoice"u8, option.ChangesChoice);
    }

    private static void Members(JsonBytes json, Caution caution)
    {
        json.Text("id"u8, caution.Id);
        json.Text("hazard"u8, caution.Hazard);
        json.Text("precaution"u8, caution.Precaution);
        json.Text("whoDecides"u8, caution.WhoDecides);
    }

    private static void Members(JsonBytes json, Notice notice)
    {
        json.Text("code"u8, notice.Code);
        json.Text("pointer"u8, notice.Pointer);
        json.Text("text"u8, notice.Text);
    }
}
