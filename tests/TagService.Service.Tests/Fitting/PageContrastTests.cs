using System.Globalization;
using System.Text.RegularExpressions;
using TagService.Service.Tests.Database;

namespace TagService.Service.Tests.Fitting;

/// <summary>Colours of the pages in both schemes against WCAG 2.2, success criterion 1.4.3 (AA: 4.5 to 1 for text), by its formula of relative luminance.</summary>
[Collection(TestDatabase.Collection)]
public sealed partial class PageContrastTests(TestDatabase server)
{
    [Fact]
    public async Task Style_TextOnItsGround_ReachesFourAndAHalfToOneInBothSchemes()
    {
        await using var host = await FittingHost.StartAsync(server, "page_contrast", FittingHost.Asset("L-1"));
        var (_, page) = await host.PageAsync("/v1/assets/L-1/fitting-instruction?format=html");
        var schemes = Scheme().Matches(page.QuerySelector("style")!.TextContent);
        Assert.True(schemes.Count >= 2);
        foreach (Match scheme in schemes)
        {
            var colours = Colour().Matches(scheme.Value).ToDictionary(c => c.Groups["name"].Value, c => Luminance(c.Groups["hex"].Value));
            foreach (var text in new[] { "ink", "soft", "link" })
            {
                foreach (var ground in new[] { "paper", "tint" })
                    Assert.True(Contrast(colours[text], colours[ground]) >= 4.5, $"{text} on {ground}: {Contrast(colours[text], colours[ground]):0.0} in {scheme.Value}");
            }
        }
    }

    /// <summary>The formula itself: black on white is 21 to 1, #777777 on white 4.48 (WCAG 2.2, definition of contrast ratio; published examples, from memory).</summary>
    [Fact]
    public void Contrast_KnownPairs_IsThePublishedRatio()
    {
        Assert.Equal(21, Contrast(Luminance("000000"), Luminance("ffffff")), 3);
        Assert.Equal(4.48, Contrast(Luminance("777777"), Luminance("ffffff")), 2);
    }

    private static double Contrast(double a, double b) => (Math.Max(a, b) + 0.05) / (Math.Min(a, b) + 0.05);

    private static double Luminance(string hex)
    {
        // Three digits stand for six.
        var full = hex.Length == 3 ? string.Concat(hex.Select(c => $"{c}{c}")) : hex;
        double Channel(int i)
        {
            var c = int.Parse(full.AsSpan(2 * i, 2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture) / 255.0;
            return c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4);
        }

        return (0.2126 * Channel(0)) + (0.7152 * Channel(1)) + (0.0722 * Channel(2));
    }

    [GeneratedRegex(":root \\{[^}]*\\}")]
    private static partial Regex Scheme();

    [GeneratedRegex("--(?<name>[a-z]+): #(?<hex>[0-9a-f]{6}|[0-9a-f]{3});")]
    private static partial Regex Colour();
}
