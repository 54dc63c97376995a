using TagService.Api.Http.Json;
using TagService.Domain.LifetimeCosts;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using static TagService.Api.Features.Recommendations.AnswerValues;

namespace TagService.Api.Features.Recommendations;

/// <summary>The part of <see cref="RecommendationWriter"/> that stands for <see cref="CandidateResponse"/>.</summary>
internal static class CandidateWriter
{
    public static void Members(JsonBytes json, Candidate c)
    {
        json.Text("tagClassId"u8, c.TagClass.Id);
        json.Text("name"u8, c.TagClass.Name);
        json.Text("verdict"u8, Kebab(c.Verdict));
        json.Open("expectedRange"u8);
        Spread(json, c.Range.P10.Value, c.Range.P50.Value, c.Range.P90.Value);
        json.Close();
        json.Text("rangeBasis"u8, RangeBasis(c.RangeCalibration));
        json.Number("requiredRangeProbability"u8, Round(c.RequiredRangeProbability));
        json.Text("limitedBy"u8, Kebab(c.Range.LimitedBy));
        json.Objects("bands"u8, c.Bands, Members);
        json.Objects("rangeByStandoff"u8, c.StandoffCurve, Members);
        json.Objects("lossBudget"u8, c.LossBudget, Members);
        Attachment(json, c);
        Life(json, c);
        Cost(json, c.Cost);
        json.Texts("reasons"u8, c.Reasons);
        json.Objects("rejections"u8, c.Rejections, Members);
    }

    private static void Members(JsonBytes json, BandRange band)
    {
        json.Number("lowMhz"u8, band.Band.LowMhz);
        json.Number("highMhz"u8, band.Band.HighMhz);
        json.Text("rule"u8, BandRule(band.Band));
        Spread(json, band.P10M, band.P50M, band.P90M);
    }

    private static void Members(JsonBytes json, StandoffPoint point)
    {
        json.Number("addedStandoffMm"u8, Round(point.AddedStandoffMm));
        Spread(json, point.P10M, point.P50M, point.P90M);
        json.Flag("reads"u8, point.Reads);
    }

    private static void Spread(JsonBytes json, double p10M, double p50M, double p90M)
    {
        json.Number("p10M"u8, Round(p10M));
        json.Number("p50M"u8, Round(p50M));
        json.Number("p90M"u8, Round(p90M));
    }

    private static void Members(JsonBytes json, LossBudgetLine line)
    {
        json.Text("step"u8, line.Step);
        json.Number("valueDb"u8, Round(line.ValueDb));
        json.Number("levelDbm"u8, Round(line.LevelDbm));
        json.Text("note"u8, line.Note);
        json.Text("source"u8, line.Source);
    }

    private static void Attachment(JsonBytes json, Candidate c)
    {
        json.Open("attachment"u8);
        json.Text("method"u8, c.Method.Id);
        json.Text("name"u8, c.Method.Name);
        json.Texts("steps"u8, c.Steps);
        json.Number("minutes"u8, Math.Round(c.Minutes, 1));
        json.Close();
    }

    private static void Life(JsonBytes json, Candidate c)
    {
        json.Open("life"u8);
        json.Number("shape"u8, c.Life.Distribution.Shape);
        json.Number("scaleYears"u8, Math.Round(c.Life.Distribution.ScaleYears, 2));
        json.Number("medianYears"u8, Math.Round(c.Life.Distribution.MedianYears, 2));
        json.Number("survivesServiceProbability"u8, Round(c.SurvivesService));
        json.Text("basis"u8, LifeBasis(c.Life));
        json.Close();
    }

    private static void Cost(JsonBytes json, LifetimeCost cost)
    {
        json.Open("lifetimeCost"u8);
        json.Number("presentValue"u8, Cents(cost.PresentValue));
        json.Text("currency"u8, cost.Currency);
        json.Number("p10"u8, Cents(cost.P10));
        json.Number("p90"u8, Cents(cost.P90));
        json.Objects("components"u8, cost.Components, Members);
        json.Close();
    }

    private static void Members(JsonBytes json, CostShare share)
    {
        json.Text("component"u8, share.Id);
        json.Text("name"u8, share.Name);
        json.Number("presentValue"u8, Cents(share.PresentValue));
        json.Text("working"u8, share.Working);
    }

    private static void Members(JsonBytes json, Rejection rejection)
    {
        json.Text("rule"u8, rejection.RuleId);
        json.Text("family"u8, rejection.Family);
        json.Text("verdict"u8, Kebab(rejection.Verdict));
        json.Text("needed"u8, rejection.Needed);
        json.Text("offered"u8, rejection.Offered);
        json.Text("sentence"u8, rejection.Sentence);
    }
}
