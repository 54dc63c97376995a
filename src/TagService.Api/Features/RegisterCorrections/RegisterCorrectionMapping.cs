using System.Globalization;
using TagService.Api.Http;
using TagService.Domain.Identity;
using TagService.Domain.Identity.Text;
using TagService.Storage.Corrections;

namespace TagService.Api.Features.RegisterCorrections;

/// <summary>From storage to the wire.</summary>
internal static class RegisterCorrectionMapping
{
    // The GIAI of GS1 TDS 2.3, annex E.3; the rest is invented.
    private const string ExampleEpc = "3476451FD40000000000162E";

    public static RegisterCorrectionResponse Example { get; } = new RegisterCorrection(
        "P-1", "works-register", CorrectionKind.Attach, null, null, new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero),
        [new(Guid.Parse("019f3a00-0000-7000-8000-000000000001"), "P-1", KeyOf(ExampleEpc), ExampleEpc, null, new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero))]).ToResponse();

    public static RegisterCorrectionResponse ToResponse(this RegisterCorrection c)
    {
        CorrectionAttachment[] open = [.. c.Attachments.Where(a => a.EndReason is null && a.AssetId == c.AssetId)];
        var ended = c.Attachments.FirstOrDefault(a => a.EndReason is not null);
        string[] others = [.. c.Attachments.Where(a => a.AssetId != c.AssetId).Select(a => a.AssetId)];
        return new(
            c.AssetId, c.Source, c.Kind, DetailOf(c, open, ended, others), c.RegisterTag, c.RegisterTagKey, [.. open.Select(ToTag)], c.Since, ended?.EndReason, others,
            [.. c.Attachments.Select(a => a.Id)]);
    }

    public static string ToCsv(IEnumerable<RegisterCorrectionResponse> corrections)
    {
        var csv = new CsvText();
        csv.Line("kind", "assetId", "source", "registerTag", "identities", "epcHex", "digitalLinks", "since", "endReason", "otherAssetIds", "attachmentIds", "detail");
        foreach (var c in corrections)
        {
            csv.Line(
                KindText(c.Kind), c.AssetId, c.Source, c.RegisterTag, Joined(c.Tags.Select(t => t.Identity)), Joined(c.Tags.Select(t => t.EpcHex)),
                Joined(c.Tags.Select(t => t.DigitalLink)), c.Since.ToString("yyyy-MM-dd'T'HH:mm:ss.FFFFFF'Z'", CultureInfo.InvariantCulture), c.EndReason, Joined(c.OtherAssetIds),
                Joined(c.AttachmentIds.Select(i => i.ToString())), c.Detail);
        }

        return csv.ToString();
    }

    public static string KindText(CorrectionKind kind) => System.Text.Json.JsonNamingPolicy.KebabCaseLower.ConvertName(kind.ToString());

    private static string Joined(IEnumerable<string?> texts) => string.Join(' ', texts.Where(t => t is not null));

    private static string DetailOf(RegisterCorrection c, CorrectionAttachment[] open, CorrectionAttachment? ended, string[] others) => c.Kind switch
    {
        CorrectionKind.Attach => $"The register names no tag; on the asset: {Joined(open.Select(o => o.Identity))}.",
        CorrectionKind.Replace => $"The register names {c.RegisterTagKey}; on the asset: {Joined(open.Select(o => o.Identity))}.",
        CorrectionKind.End => $"The register names {c.RegisterTagKey}, whose attachment has ended ({ended?.EndReason}); no tag is on the asset.",
        CorrectionKind.Conflict => $"The register names {c.RegisterTagKey}, which is on {Joined(others)}.",
        _ => IdentityText.Parse(c.RegisterTag ?? "") is IdentityRefused refused
            ? $"The register's tag column holds no identity: {refused.Reason.Detail} An identity is {refused.Reason.Accepted}."
            : "The register's tag column has not been looked at yet by this program version.",
    };

    private static CorrectionTagResponse ToTag(CorrectionAttachment a)
    {
        var read = a.EpcHex is { } hex ? IdentityRead.Of(EpcDecoder.Decode(Convert.FromHexString(hex.Length % 2 == 0 ? hex : hex + "0"), 4 * hex.Length)) : null;
        var uri = read?.Scheme is { } scheme ? IdentityForms.TagUri(scheme, read.Content) ?? IdentityForms.PureIdentityUri(read.Content, new()) : null;
        return new(a.Identity, a.EpcHex, uri, IdentityKey.TryParse(a.Identity, out var key) ? IdentityForms.DigitalLink(key) : null);
    }

    private static string KeyOf(string epcHex) => ((IdentityRead)IdentityText.Parse(epcHex)).Key.ToString();
}
