using System.Text.Encodings.Web;
using System.Text.Json;
using TagService.Api.Features.Fitting;
using TagService.Api.Pages.Shared;
using TagService.Domain.Fitting;
using TagService.Domain.Identity;

namespace TagService.Api.Pages.Fitting;

/// <summary>The bar codes of one instruction; each is absent where there is nothing to put into it or it would be too large.</summary>
/// <param name="Qr">QR code with the Digital Link, or the canonical text.</param>
/// <param name="DataMatrix">GS1 DataMatrix with the element string.</param>
/// <param name="Recording">QR code with address and known data of the recording call.</param>
public sealed record InstructionCodes(BarCode? Qr, BarCode? DataMatrix, BarCode? Recording)
{
    private static readonly JsonSerializerOptions Compact = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Makes the bar codes.</summary>
    /// <param name="identity">The identity, if there is one.</param>
    /// <param name="recording">The recording call, if something is to be fitted.</param>
    public static InstructionCodes Of(IdentityKey? identity, FittingRecordingResponse? recording) => new(
        identity is { } key ? BarCode.Qr(BarCodeTexts.Qr(key)) : null,
        identity is { } gs1 && BarCodeTexts.Gs1DataMatrix(gs1) is { } elements ? BarCode.Gs1DataMatrix(elements) : null,
        recording is null ? null : BarCode.Qr(RecordingText(recording)));

    /// <summary>The recording call as one line of JSON: <c>{"method":"POST","address":"...","body":{...}}</c>.</summary>
    /// <param name="recording">The call.</param>
    public static string RecordingText(FittingRecordingResponse recording) =>
        JsonSerializer.Serialize(new { method = recording.Method, address = recording.Address, body = recording.Body }, Compact);
}
