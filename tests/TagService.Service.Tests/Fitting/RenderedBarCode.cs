using System.Globalization;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using ZXing;
using ZXing.Common;

namespace TagService.Service.Tests.Fitting;

/// <summary>A bar code as a page draws it, made into pixels and read back by the library's reader.</summary>
internal static partial class RenderedBarCode
{
    private const int PixelsPerModule = 4;

    /// <summary>Reads the symbol that an svg element draws.</summary>
    public static Result? Decode(IElement svg, BarcodeFormat format)
    {
        var side = int.Parse(svg.GetAttribute("viewBox")!.Split(' ')[2], CultureInfo.InvariantCulture) * PixelsPerModule;
        var grey = new byte[side * side];
        Array.Fill(grey, (byte)255);
        var drawn = 0;
        foreach (Match run in Run().Matches(svg.QuerySelector("path")!.GetAttribute("d")!))
        {
            Fill(grey, side, Number(run, "x"), Number(run, "y"), Number(run, "w"));
            drawn += run.Length;
        }

        // Nothing of the path is left over.
        Assert.Equal(svg.QuerySelector("path")!.GetAttribute("d")!.Length, drawn);
        var source = new RGBLuminanceSource(grey, side, side, RGBLuminanceSource.BitmapFormat.Gray8);
        return new BarcodeReaderGeneric { Options = new DecodingOptions { PossibleFormats = [format], TryHarder = true } }.Decode(source);
    }

    private static void Fill(byte[] grey, int side, int x, int y, int modules)
    {
        for (var row = y * PixelsPerModule; row < (y + 1) * PixelsPerModule; row++)
            Array.Fill(grey, (byte)0, (row * side) + (x * PixelsPerModule), modules * PixelsPerModule);
    }

    private static int Number(Match run, string group) => int.Parse(run.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex("M(?<x>\\d+) (?<y>\\d+)h(?<w>\\d+)v1h-\\k<w>z")]
    private static partial Regex Run();
}
