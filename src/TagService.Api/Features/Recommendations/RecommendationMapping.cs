using System.Text.Json;
using TagService.Api.Http.Json;
using TagService.Domain.LifetimeCosts;
using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;
using static TagService.Api.Features.Recommendations.AnswerValues;

namespace TagService.Api.Features.Recommendations;

/// <summary>From the wire to the domain and back.</summary>
public static class RecommendationMapping
{
    private static readonly Dictionary<string, JsonElement> None = [];

    /// <summary>The asset record behind a request; the register's own top-level fields become attributes.</summary>
    public static AssetRecord ToAssetRecord(this RecommendationRequest request)
    {
        var attributes = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var (name, value) in request.RegisterFields ?? None)
            Flatten(attributes, name, value);
        foreach (var (name, value) in request.Attributes ?? None)
            Flatten(attributes, name, value);
        return new()
        {
            AssetId = request.AssetId,
            Category = request.Category,
            Description = request.Description,
            Surface = request.Surface,
            Mounting = request.Mounting,
            Environment = request.Environment,
            Contents = request.Contents,
            Reading = request.Reading,
            Service = request.Service,
            Identity = request.Identity,
            Attributes = attributes,
        };
    }

    /// <summary>Adds a value under flat names: members of objects behind a dot, items of lists joined by commas.</summary>
    internal static void Flatten(Dictionary<string, string> attributes, string name, JsonElement value)
    {
        switch (value.ValueKind)
        {
            case JsonValueKind.Object:
                foreach (var member in value.EnumerateObject())
                    Flatten(attributes, $"{name}.{member.Name}", member.Value);
                break;
            case JsonValueKind.Array:
                foreach (var item in value.EnumerateArray())
                    Flatten(attributes, name, item);
                break;
            case JsonValueKind.Null or JsonValueKind.Undefined:
                break;
            default:
                var text = value.ValueKind == JsonValueKind.String ? value.GetString()! : value.GetRawText();
                attributes[name] = attributes.TryGetValue(name, out var before) ? $"{before}, {text}" : text;
                break;
        }
    }

    /// <summary>One notice for each of the register's own fields: that it was kept, and the known name it resembles.</summary>
    public static IReadOnlyList<Notice> OwnFieldNotices(this RecommendationRequest request) =>
        request.RegisterFields is { Count: > 0 } fields ? [.. fields.Keys.Select(OwnField<RecommendationRequest>)] : [];

    /// <summary>The notice for one of them.</summary>
    /// <typeparam name="T">The request it was sent in.</typeparam>
    internal static Notice OwnField<T>(string name) => new(
        $"#/{name.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal)}",
        JsonBody.NearestKnownName<T>(name) is { } near
            ? $"Not a field of this interface; kept as an attribute. If {near} was meant, send it under that name."
            : "Not a field of this interface; kept as an attribute.",
        "register-field");

    /// <summary>
    /// The answer as it goes over the wire: the contract, which examples and tests use. What is sent is written by
    /// <see cref="RecommendationWriter"/> without these records; a test holds both together.
    /// </summary>
    public static RecommendationResponse ToResponse(this RecommendationAnswer answer, IReadOnlyList<Notice> ownFields)
    {
        var candidates = answer.Candidates.Select(c => c.ToResponse()).ToArray();
        return new(
            answer.Recommendation is null ? null : candidates[0],
            answer.NoneBecause is { } none ? new(none.Summary, [.. none.Changes.Select(ToResponse)]) : null,
            candidates,
            answer.Profile.ToResponse(),
            [.. answer.Assumptions.Select(ToResponse)],
            [.. answer.Questions.Select(ToResponse)],
            [.. answer.Cautions.Select(c => new CautionResponse(c.Id, c.Hazard, c.Precaution, c.WhoDecides))],
            [.. ownFields.Concat(answer.Notices).Select(n => new NoticeResponse(n.Code, n.Pointer, n.Text))],
            answer.Currency,
            RecommendationEngine.Version,
            answer.CatalogueVersion);
    }

    private static CandidateResponse ToResponse(this Candidate c) => new(
        c.TagClass.Id,
        c.TagClass.Name,
        Kebab(c.Verdict),
        new(Round(c.Range.P10.Value), Round(c.Range.P50.Value), Round(c.Range.P90.Value)),
        RangeBasis(c.RangeCalibration),
        Round(c.RequiredRangeProbability),
        Kebab(c.Range.LimitedBy),
        [.. c.Bands.Select(b => new BandRangeResponse(
            b.Band.LowMhz, b.Band.HighMhz, BandRule(b.Band), Round(b.P10M), Round(b.P50M), Round(b.P90M)))],
        [.. c.StandoffCurve.Select(p => new StandoffPointResponse(
            Round(p.AddedStandoffMm), Round(p.P10M), Round(p.P50M), Round(p.P90M), p.Reads))],
        [.. c.LossBudget.Select(l => new LossBudgetLineResponse(l.Step, Round(l.ValueDb), Round(l.LevelDbm), l.Note, l.Source))],
        new(c.Method.Id, c.Method.Name, c.Steps, Math.Round(c.Minutes, 1)),
        new(
            c.Life.Distribution.Shape,
            Math.Round(c.Life.Distribution.ScaleYears, 2),
            Math.Round(c.Life.Distribution.MedianYears, 2),
            Round(c.SurvivesService),
            LifeBasis(c.Life)),
        c.Cost.ToResponse(),
        c.Reasons,
        [.. c.Rejections.Select(r => new RejectionResponse(r.RuleId, r.Family, Kebab(r.Verdict), r.Needed, r.Offered, r.Sentence))]);

    private static LifetimeCostResponse ToResponse(this LifetimeCost cost) => new(
        Cents(cost.PresentValue),
        cost.Currency,
        Cents(cost.P10),
        Cents(cost.P90),
        [.. cost.Components.Select(p => new CostComponentResponse(p.Id, p.Name, Cents(p.PresentValue), p.Working))]);

    private static ProfileMatchResponse ToResponse(this ProfileMatch match) => new(
        match.Profile.Id, match.Profile.Name, match.Confidence, match.MatchedWords,
        [.. match.Alternatives.Select(p => p.Id)]);

    private static AssumptionResponse ToResponse(Assumption a) =>
        new(a.Pointer, a.Assumed, a.Because, Kebab(a.Basis), a.Confidence);

    private static NeededChangeResponse ToResponse(NeededChange c) => new(c.What, c.From, c.To, c.TagClassId, c.Sentence);

    private static QuestionResponse ToResponse(Question q) => new(
        q.Pointer, q.Text, q.Assumed,
        [.. q.Options.Select(o => new QuestionOptionResponse(o.Answer, o.Share, o.TagClassId, o.ChangesChoice))],
        Cents(q.ExpectedSaving));
}
