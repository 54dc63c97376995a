using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;
using TagService.Service.Tests.Database;
using ZXing;

namespace TagService.Service.Tests.Fitting;

/// <summary>The pages: whole, safe against what registers hold, with every caution, and bar codes that read back as what they say.</summary>
[Collection(TestDatabase.Collection)]
public sealed class FittingPageTests(TestDatabase server)
{
    private const string RightToLeft = "\u202eمضخة\u202c מַשׁאֵבָה";
    private const string Hostile = "<script>alert(1)</script><img src=x onerror=alert(2)>\"'&amp;</style>{{7*7}}";

    /// <summary>Every element closed and nothing that a strict HTML parser has to repair (HTML Living Standard, parsing).</summary>
    [Theory]
    [InlineData("/v1/assets/L-1/fitting-instruction?format=html")]
    [InlineData("/v1/assets/G-1/fitting-instruction?format=html")]
    [InlineData("/v1/fitting-worklist?format=html&reserve=true&limit=2")]
    [InlineData("/v1/fitting-worklist?format=html&after=W251bGwsIn4iXQ")]
    public async Task Page_Any_IsWellFormedWithHeadingsCaptionsAndLanguage(string path)
    {
        await using var host = await FittingHost.StartAsync(
            server, "page_form", FittingHost.Asset("L-1", location: "Works"), FittingHost.Asset("P-1", "centrifugal pump"), (Dangerous(), "Plant"));
        await host.SetUpNumbersAsync();
        var (text, _) = await host.PageAsync(path);
        var strict = new HtmlParser(new HtmlParserOptions { IsStrictMode = true }).ParseDocument(text);

        Assert.Equal("en", strict.DocumentElement.GetAttribute("lang"));
        Assert.NotEmpty(strict.Title!);
        Assert.Single(strict.QuerySelectorAll("h1"));
        Assert.Single(strict.QuerySelectorAll("main"));
        Assert.All(strict.QuerySelectorAll("table"), t => Assert.NotEmpty(t.QuerySelector("caption")!.TextContent.Trim()));
        Assert.All(strict.QuerySelectorAll("svg"), s => Assert.NotEmpty(s.GetAttribute("aria-label")!));
        Assert.Equal(strict.QuerySelectorAll("[id]").Length, strict.QuerySelectorAll("[id]").Select(e => e.Id).Distinct().Count());
        // No heading level is passed over.
        var levels = strict.QuerySelectorAll("h1,h2,h3").Select(h => h.TagName[1] - '0').ToList();
        Assert.All(levels.Zip(levels.Skip(1)), p => Assert.True(p.Second <= p.First + 1));
    }

    /// <summary>W3C Content Security Policy Level 3: no script at all, and the style by the hash of what stands in the page.</summary>
    [Fact]
    public async Task Page_SecurityPolicy_LetsOnlyItsOwnStyleIn()
    {
        await using var host = await FittingHost.StartAsync(server, "page_policy", FittingHost.Asset("L-1"));
        using var answer = await host.Client.GetAsync("/v1/assets/L-1/fitting-instruction?format=html");
        var policy = answer.Headers.GetValues("Content-Security-Policy").Single();
        var page = new HtmlParser().ParseDocument(await answer.Content.ReadAsStringAsync());

        var style = Assert.Single(page.QuerySelectorAll("style"));
        var hash = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(style.TextContent)));
        Assert.Contains($"style-src 'sha256-{hash}'", policy, StringComparison.Ordinal);
        Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.Empty(page.QuerySelectorAll("script, link, iframe, object, [style], [onclick], [onerror]"));
        Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
        Assert.False(answer.Headers.Contains("blazor-enhanced-nav"));
    }

    [Fact]
    public async Task Page_HostileTextInTheRegister_StaysText()
    {
        var record = new AssetRecord
        {
            AssetId = "<b>&\"'/1", Category = "ladder " + Hostile, Description = new string('W', 2_000) + RightToLeft,
            Attributes = new Dictionary<string, string> { ["note"] = Hostile },
        };
        await using var host = await FittingHost.StartAsync(server, "page_hostile", (record, Hostile + RightToLeft));
        await host.SetUpNumbersAsync();
        foreach (var path in new[] { $"/v1/assets/{Uri.EscapeDataString(record.AssetId)}/fitting-instruction?format=html", $"/v1/fitting-worklist?format=html&location={Uri.EscapeDataString(Hostile + RightToLeft)}" })
        {
            var (_, page) = await host.PageAsync(path);
            Assert.Empty(page.QuerySelectorAll("script, img, b"));
            Assert.Single(page.QuerySelectorAll("style"));
            // Exactly as the register has it, each in an element of its own that keeps its direction to itself.
            var own = page.QuerySelectorAll("bdi").Select(b => b.TextContent).ToList();
            Assert.Contains(record.AssetId, own);
            Assert.Contains(record.Category, own);
            Assert.Contains(Hostile + RightToLeft, own);
            Assert.DoesNotContain("alert", page.Body!.ChildNodes.OfType<IElement>().SelectMany(e => e.QuerySelectorAll("*")).SelectMany(e => e.Attributes)
                .Where(a => a.Name is not ("href" or "data-label")).Select(a => a.Value).Aggregate("", (all, v) => all + v), StringComparison.Ordinal);
        }
    }

    /// <summary>Every caution of the recommendation stands on the page with hazard, precaution and who decides, over all profiles of the product.</summary>
    [Fact]
    public async Task Page_EveryProfile_HasEveryCautionOfTheRecommendation()
    {
        var assets = AssetProfiles.Table.All.Select(p => FittingHost.Asset(p.Id, p.Name)).ToArray();
        await using var host = await FittingHost.StartAsync(server, "page_cautions", assets);
        foreach (var profile in AssetProfiles.Table.All)
        {
            var answer = RecommendationEngine.Recommend(new() { AssetId = profile.Id, Category = profile.Name }, new(IncludeQuestions: false));
            var (_, page) = await host.PageAsync($"/v1/assets/{profile.Id}/fitting-instruction?format=html");
            foreach (var caution in answer.Cautions)
            {
                var box = page.GetElementById($"caution-{caution.Id}");
                Assert.True(box is not null, $"{profile.Id}: {caution.Id}");
                Assert.Contains(caution.Hazard, box.TextContent, StringComparison.Ordinal);
                Assert.Contains(caution.Precaution, box.TextContent, StringComparison.Ordinal);
                Assert.Contains(caution.WhoDecides, box.TextContent, StringComparison.Ordinal);
            }
        }
    }

    /// <summary>Cautions stand before the step they concern, and the parts in the order of the work.</summary>
    [Fact]
    public async Task Page_Pump_GoesThroughTheWorkInOrder()
    {
        await using var host = await FittingHost.StartAsync(server, "page_order", FittingHost.Asset("P-1", "centrifugal pump"));
        var (text, page) = await host.PageAsync("/v1/assets/P-1/fitting-instruction?format=html");
        Assert.Equal(
            ["What to fit", "Where", "Cautions before you start", "Prepare", "Fix", "Write and lock", "Check", "Record"],
            page.QuerySelectorAll("h2").Select(h => h.TextContent));
        var instruction = await host.InstructionAsync("P-1");
        foreach (var step in instruction["fitting"]!["preparing"]!.AsArray().Concat(instruction["fitting"]!["fixing"]!.AsArray()))
        {
            if ((string?)step!["cautionId"] is { } caution)
                Assert.InRange(text.IndexOf($"id=\"caution-{caution}\"", StringComparison.Ordinal), 1, text.IndexOf((string)step["text"]!, StringComparison.Ordinal));
        }
    }

    /// <summary>
    /// What the codes carry, read back from their pixels: QR with the canonical Digital Link; Data Matrix with FNC1 first, which readers
    /// report as symbology identifier ]d2 (ISO/IEC 15424; from memory); QR with the recording call.
    /// </summary>
    [Fact]
    public async Task BarCodes_DrawnOnThePage_ReadBackAsWhatTheySay()
    {
        await using var host = await FittingHost.StartAsync(server, "page_codes", FittingHost.Asset("Leiter Ü/7"));
        await host.SetUpNumbersAsync();
        var (_, page) = await host.PageAsync("/v1/assets/Leiter%20%C3%9C%2F7/fitting-instruction?format=html");
        var codes = page.QuerySelectorAll("figure.code svg");
        Assert.Equal(3, codes.Length);

        Assert.Equal("https://id.gs1.org/8004/95211411000", RenderedBarCode.Decode(codes[0], BarcodeFormat.QR_CODE)!.Text);
        var matrix = RenderedBarCode.Decode(codes[1], BarcodeFormat.DATA_MATRIX)!;
        Assert.Equal("800495211411000", matrix.Text.TrimStart('\u001d'));
        Assert.Equal("]d2", matrix.ResultMetadata[ResultMetadataType.SYMBOLOGY_IDENTIFIER]);
        var call = JsonNode.Parse(RenderedBarCode.Decode(codes[2], BarcodeFormat.QR_CODE)!.Text)!;
        Assert.Equal("POST", (string?)call["method"]);
        Assert.EndsWith("/v1/assets/Leiter%20%C3%9C%2F7/attachments", (string)call["address"]!, StringComparison.Ordinal);
        Assert.Equal("8004:95211411000", (string?)call["body"]!["identity"]);
    }

    /// <summary>No password is known to the service, so none can be shown; what looks like one on the page is identity, PC word or lock payload.</summary>
    [Fact]
    public async Task Page_WithLockPolicy_ShowsWherePasswordsComeFromAndNoSecret()
    {
        await using var host = await FittingHost.StartAsync(server, "page_secret", FittingHost.Asset("L-1"));
        await host.SetUpNumbersAsync();
        var (_, page) = await host.PageAsync("/v1/assets/L-1/fitting-instruction?format=html");
        Assert.Contains("the owner's secret store", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains("FC2A0", page.Body.TextContent, StringComparison.Ordinal);
        var words = page.QuerySelectorAll("main *").Where(e => e.Children.Length == 0 && e.Closest("p.soft") is null)
            .SelectMany(e => e.TextContent.Split(' ', '\n', ',', ';', '.', ':')).Where(w => w.Length == 8 && w.All(char.IsAsciiHexDigit));
        Assert.Empty(words);
    }

    private static AssetRecord Dangerous() => new()
    {
        AssetId = "G-1", Category = "gas detector", Environment = new() { HazardousArea = new() { Zone = "1", Group = "IIB", TemperatureClass = "T4" } },
    };
}
