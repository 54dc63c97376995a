using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using TagService.Service.Tests.Database;

namespace TagService.Service.Tests.Contract;

/// <summary>The worked recommendation of README.md is what the service answers today.</summary>
[Collection(TestDatabase.Collection)]
public sealed partial class ReadmeTests(RealHost host) : IClassFixture<RealHost>
{
    [Fact]
    public async Task WorkedRecommendation_PostedAgain_GivesTheNumbersPrinted()
    {
        var readme = await File.ReadAllTextAsync(Path.Combine(Repository.Root, "README.md"));
        using var content = new StringContent(Record().Match(readme).Groups[1].Value, Encoding.UTF8, "application/json");
        using var answer = JsonDocument.Parse(await (await host.Client.PostAsync("/v1/recommendations", content)).Content.ReadAsStringAsync());
        var root = answer.RootElement;
        var best = root.GetProperty("recommendation");
        var range = best.GetProperty("expectedRange");
        var cost = best.GetProperty("lifetimeCost");
        var life = best.GetProperty("life");
        var budget = best.GetProperty("lossBudget").EnumerateArray().Select(l => l.GetProperty("valueDb").GetDouble()).ToList();
        var labour = cost.GetProperty("components").EnumerateArray().Single(c => c.GetProperty("component").GetString() == "re-application-labour");
        var question = root.GetProperty("questions")[0];
        string[] printed =
        [
            $"{best.GetProperty("name").GetString()}, {best.GetProperty("attachment").GetProperty("name").GetString()}",
            $"{best.GetProperty("verdict").GetString()}: {best.GetProperty("rejections")[0].GetProperty("sentence").GetString()}",
            $"beyond {F(range, "p10M")} m, half beyond {F(range, "p50M")} m, one in ten beyond {F(range, "p90M")} m",
            $"reads {best.GetProperty("requiredRangeProbability").GetDouble().ToString("0%", CultureInfo.InvariantCulture).TrimEnd('%')} % of them",
            FormattableString.Invariant($"{budget[0]:0} dBm EIRP, {budget[1]:0.0} dB path loss at the median range, {budget[2]:0.0} dB polarisation, {budget[3]:0.0} dB tag gain on its reference plate, {budget[4]:0.0} dB"),
            FormattableString.Invariant($"last {life.GetProperty("medianYears").GetDouble():0.0} years in a process plant; {life.GetProperty("survivesServiceProbability").GetDouble() * 100:0} % outlive"),
            $"{F(cost, "presentValue")} {root.GetProperty("currency").GetString()} present value ({F(cost, "p10")} to {F(cost, "p90")}), of which re-application labour {F(labour, "presentValue")}",
            $"{question.GetProperty("question").GetString()} (worth {F(question, "expectedSaving")}",
        ];
        Assert.All(printed, text => Assert.Contains(text, readme, StringComparison.Ordinal));
    }

    private static string F(JsonElement element, string member) =>
        element.GetProperty(member).GetDecimal().ToString("0.00", CultureInfo.InvariantCulture);

    [GeneratedRegex("```json\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex Record();
}
