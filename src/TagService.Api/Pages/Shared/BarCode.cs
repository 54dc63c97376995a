using System.Globalization;
using System.Text;
using ZXing;
using ZXing.Common;
using ZXing.Datamatrix;
using ZXing.Datamatrix.Encoder;
using ZXing.QrCode;
using ZXing.QrCode.Internal;

namespace TagService.Api.Pages.Shared;

/// <summary>A two-dimensional bar code as modules, drawn by <see cref="BarCodeImage"/>.</summary>
/// <param name="Kind">Its name, for people.</param>
/// <param name="Content">What it says.</param>
/// <param name="Side">Modules along one side, quiet zone included.</param>
/// <param name="Path">SVG path over the dark modules, one unit a module.</param>
public sealed record BarCode(string Kind, string Content, int Side, string Path)
{
    /// <summary>Most bytes put into a QR code: more makes modules too small for a printed page and a telephone.</summary>
    public const int MaxQrBytes = 700;

    // Modules of light around the symbol: QR 4 (ISO/IEC 18004), Data Matrix 1 (ISO/IEC 16022; from memory), one more for printers.
    private const int QrQuiet = 4;
    private const int DataMatrixQuiet = 2;

    /// <summary>QR code with error correction M (15 %), in UTF-8.</summary>
    /// <param name="content">Any text.</param>
    /// <returns>Null when it is longer than <see cref="MaxQrBytes"/>.</returns>
    public static BarCode? Qr(string content)
    {
        if (Encoding.UTF8.GetByteCount(content) > MaxQrBytes)
            return null;
        var hints = new Dictionary<EncodeHintType, object>
        {
            [EncodeHintType.ERROR_CORRECTION] = ErrorCorrectionLevel.M,
            [EncodeHintType.CHARACTER_SET] = "UTF-8",
            // Without the marker for ASCII: some scanners show it as text.
            [EncodeHintType.DISABLE_ECI] = content.All(char.IsAscii),
            [EncodeHintType.MARGIN] = 0,
        };
        return Draw("QR code", content, new QRCodeWriter().encode(content, BarcodeFormat.QR_CODE, 0, 0, hints), QrQuiet);
    }

    /// <summary>GS1 DataMatrix: Data Matrix ECC 200 that begins with FNC1.</summary>
    /// <param name="elementString">Application identifiers and values, separated by group separators where GS1 asks for it.</param>
    public static BarCode Gs1DataMatrix(string elementString)
    {
        var hints = new Dictionary<EncodeHintType, object>
        {
            [EncodeHintType.GS1_FORMAT] = true,
            [EncodeHintType.DATA_MATRIX_COMPACT] = true,
            [EncodeHintType.DATA_MATRIX_SHAPE] = SymbolShapeHint.FORCE_SQUARE,
            [EncodeHintType.MARGIN] = 0,
        };
        return Draw("GS1 DataMatrix", elementString, new DataMatrixWriter().encode(elementString, BarcodeFormat.DATA_MATRIX, 0, 0, hints), DataMatrixQuiet);
    }

    // One rectangle for each run of dark modules in a row.
    private static BarCode Draw(string kind, string content, BitMatrix modules, int quiet)
    {
        var path = new StringBuilder();
        for (var y = 0; y < modules.Height; y++)
        {
            for (var x = 0; x < modules.Width; x++)
            {
                if (!modules[x, y])
                    continue;
                var end = x;
                while (end < modules.Width && modules[end, y])
                    end++;
                path.Append(CultureInfo.InvariantCulture, $"M{x + quiet} {y + quiet}h{end - x}v1h-{end - x}z");
                x = end;
            }
        }

        return new(kind, content, modules.Width + (2 * quiet), path.ToString());
    }
}
