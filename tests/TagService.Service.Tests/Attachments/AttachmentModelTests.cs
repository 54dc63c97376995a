using System.Net;
using System.Text.Json.Nodes;
using CsCheck;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;
using static TagService.Service.Tests.Attachments.AttachmentClient;

namespace TagService.Service.Tests.Attachments;

/// <summary>The service with its database beside a slow and obvious model, whatever is recorded in whatever order.</summary>
[Collection(TestDatabase.Collection)]
public sealed class AttachmentModelTests(RealHost host) : IClassFixture<RealHost>
{
    private const int LastDay = 6;

    private static readonly Gen<Bounds> Times = Gen.OneOf(
        Gen.Const(Bounds.Unknown),
        Gen.Int[0, LastDay].Select(d => new Bounds(d, d)),
        Gen.Int[0, LastDay].Select(d => new Bounds(d, null)),
        Gen.Int[0, LastDay].Select(d => new Bounds(null, d)),
        Gen.Select(Gen.Int[0, LastDay], Gen.Int[0, LastDay], (a, b) => new Bounds(Math.Min(a, b), Math.Max(a, b))));

    private static readonly Gen<string> Reasons = Gen.Int[0, 3].Select(i => new[] { "fell-off", "asset-retired", "not-known", "never-happened" }[i]);

    // What: 0 to 2 a new one (2: it ends the one before), 3 an end, 4 dates and asset corrected, 5 the end taken back.
    private static readonly Gen<Step> Steps =
        from what in Gen.Int[0, 5]
        from which in Gen.Int[0, 9]
        from tag in Gen.Int[0, 1]
        from asset in Gen.Int[0, 1]
        from start in Times
        from end in Times
        from reason in Reasons
        select new Step(what, which, tag, asset, start, end, reason);

    [Fact]
    public async Task Service_AnySequence_TakesAndKeepsWhatTheModelDoes() => await Steps.Array[1, 14].SampleAsync(
        async steps =>
        {
            string[] assets = [await host.Client.NewAssetAsync(), await host.Client.NewAssetAsync()];
            string[] tags = [NewTag(), NewTag()];
            var model = new SlowModel();
            foreach (var step in steps)
                await TakeAsync(step, model, assets, tags);
            foreach (var tag in tags.Where(t => model.All.Any(e => e.Tag == t)))
                Assert.Equal(model.All.Where(e => e.Tag == tag).OrderBy(e => e.Key).Select(e => $"{e.Key} {e.Text}"), await ShownAsync(tag));

            // The same facts entered in the opposite order: all are taken, and the state is the same.
            var renamed = tags.ToDictionary(t => t, _ => NewTag());
            foreach (var entry in model.All.Where(e => e.Counts).Reverse())
                await host.Client.StartedAsync(entry.Asset, Body(entry with { Tag = renamed[entry.Tag] }).ToJsonString());
            foreach (var tag in tags.Where(t => model.All.Any(e => e.Tag == t && e.Counts)))
            {
                Assert.Equal(
                    model.All.Where(e => e.Tag == tag && e.Counts).Select(e => e.Text).Order(),
                    (await ShownAsync(renamed[tag])).Select(t => t[(t.IndexOf(' ', StringComparison.Ordinal) + 1)..]).Order());
            }
        },
        iter: 60, threads: 2);

    private async Task TakeAsync(Step step, SlowModel model, string[] assets, string[] tags)
    {
        var (tag, asset) = (tags[step.Tag], assets[step.Asset]);
        if (step.What <= 2)
        {
            // A new entry cannot say of itself that it never happened.
            var ended = step.What == 1 && step.Reason != "never-happened";
            var entry = new Entry("new", tag, asset, step.Start, ended ? step.End : null, ended ? step.Reason : null);
            await StartAsync(step, model, entry);
            return;
        }

        if (model.All.OrderBy(e => e.Key).ElementAtOrDefault(step.Which) is not { } known)
            return;
        var (right, patch) = step.What switch
        {
            3 => (known with { End = step.End, Reason = step.Reason }, Members(step.End.Members("end").Append(("endReason", step.Reason)))),
            4 => (known with { Asset = asset, Start = step.Start }, Members(step.Start.Members("start").Append(("assetId", asset)))),
            _ => (known with { End = null, Reason = null }, Members([("endReason", null)])),
        };
        using var answer = await host.Client.PatchAsync(known.Key, patch.ToJsonString());
        await AgreeAsync(answer, model.TryRecord(right), HttpStatusCode.OK);
    }

    private async Task StartAsync(Step step, SlowModel model, Entry entry)
    {
        var body = Body(entry);
        Entry? previous = null;
        if (step.What == 2)
        {
            Entry[] open = [.. model.All.Where(e => e.Reason is null)];
            Entry[] onAsset = [.. open.Where(e => e.Asset == entry.Asset)];
            previous = Array.Find(open, e => e.Tag == entry.Tag) ?? (onAsset.Length == 1 ? onAsset[0] : null);
            body["endPrevious"] = new JsonObject(step.End.Members("").Where(m => m.Value is not null)
                .Select(m => KeyValuePair.Create(char.ToLowerInvariant(m.Member[0]) + m.Member[1..], (JsonNode?)m.Value))) { ["reason"] = step.Reason };
        }

        using var answer = await host.Client.StartAsync(entry.Asset, body.ToJsonString());
        var id = answer.StatusCode == HttpStatusCode.Created ? JsonNode.Parse(await answer.Content.ReadAsStringAsync())!.Id() : "none";
        var end = step.End == Bounds.Unknown ? new Bounds(null, entry.Start.To) : step.End;
        var taken = step.What != 2 ? model.TryRecord(entry with { Key = id })
            : previous is not null && model.TryRecord(previous with { End = end, Reason = step.Reason }, entry with { Key = id });
        await AgreeAsync(answer, taken, HttpStatusCode.Created);
    }

    private static async Task AgreeAsync(HttpResponseMessage answer, bool taken, HttpStatusCode status)
    {
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(
            taken ? answer.StatusCode == status : answer.StatusCode is HttpStatusCode.Conflict or HttpStatusCode.UnprocessableEntity,
            $"The model {(taken ? "takes" : "refuses")} it, the service answers {(int)answer.StatusCode} {text}");
    }

    private static JsonObject Body(Entry entry)
    {
        var body = Members(entry.Start.Members("start").Concat((entry.End ?? Bounds.Unknown).Members("end")).Where(m => m.Value is not null));
        (body["identity"], body["endReason"]) = (entry.Tag, entry.Reason);
        return body;
    }

    private static JsonObject Members(IEnumerable<(string Member, string? Value)> members) =>
        new(members.Select(m => KeyValuePair.Create(m.Member, (JsonNode?)m.Value)));

    private async Task<IEnumerable<string>> ShownAsync(string tag)
    {
        string[] compared = ["startAt", "startNotBefore", "startNotAfter", "endAt", "endNotBefore", "endNotAfter", "endReason", "assetId"];
        return from item in await host.Client.OfTagAsync(tag)
               let text = new JsonObject(compared.Where(m => item[m] is not null).Order(StringComparer.Ordinal).Select(m => KeyValuePair.Create(m, (JsonNode?)Plain(m, item[m]!)))).ToJsonString()
               orderby (string)item["id"]!
               select $"{item["id"]} {text}";
    }

    private static string Plain(string member, JsonNode value) => member.StartsWith("end", StringComparison.Ordinal) && member != "endReason" || member.StartsWith("start", StringComparison.Ordinal)
        ? ((DateTimeOffset)value).UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", System.Globalization.CultureInfo.InvariantCulture)
        : (string)value!;

    private sealed record Step(int What, int Which, int Tag, int Asset, Bounds Start, Bounds End, string Reason);
}
