using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Domain.Identity;
using TagService.Domain.Identity.Schemes;
using TagService.Domain.Identity.Tags;
using TagService.Domain.Identity.Text;

namespace TagService.Api.Features.Identities;

/// <summary>POST /v1/identities/encode.</summary>
internal static class EncodeIdentity
{
    // The GIAI of GS1 TDS 2.3, annex E.3.
    private static readonly EncodeIdentityRequest Example = new() { Scheme = "GIAI-96", CompanyPrefix = "9521141", Reference = "5678", Filter = 3 };

    public static void Map(IEndpointRouteBuilder group) => group.MapPost("/encode", Handle)
        .WithName("encodeIdentity")
        .WithSummary("Bits to write for an asset's identity")
        .WithDescription(
            "From the owner's company prefix and number (or an identity as text) and a scheme to EPC field, PC word and URIs. Stateless: it does not hand "
            + "out numbers and does not know which are taken. Parts that are no key are 400; a key that does not go into the scheme is 422 and says what would.")
        .Accepts<EncodeIdentityRequest>("application/json")
        .WithExamples(static () => Example, static () => Encode(Example).Answer)
        .WithJsonBodyProblems(ProblemTypes.ContradictoryFields);

    private static async Task<Results<Ok<EncodedIdentityResponse>, ApiProblem>> Handle(HttpContext context, CancellationToken cancellationToken)
    {
        var body = await JsonBody.ReadAsync<EncodeIdentityRequest>(context, null, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var (answer, problem) = Encode(body.Value);
        return answer is null ? problem! : TypedResults.Ok(answer);
    }

    private static (EncodedIdentityResponse? Answer, ApiProblem? Problem) Encode(EncodeIdentityRequest request)
    {
        var scheme = EpcSchemes.Find(request.Scheme)!;
        if (EncodeIdentityParts.Misplaced(request, scheme.Kind) is { } misplaced)
            return (null, misplaced);
        var reading = request.Identity is { } text ? IdentityText.Parse(text) : EncodeIdentityParts.Read(request, scheme.Kind);
        if (reading is IdentityRefused refused)
            return (null, IdentityProblems.Malformed(refused.Reason, EncodeIdentityParts.Pointer(request, refused.Reason)));
        var read = ((IdentityRead)reading).Content;
        var prefixLength = request.CompanyPrefix is { } prefix ? new CompanyPrefixes(prefix).LengthFor(read.Key) : read.CompanyPrefixLength;
        if (prefixLength is not { } length)
            return (null, IdentityProblems.NotItsPrefix(request.CompanyPrefix!, request.Identity!));
        var content = new EpcContent(read.Key, request.Filter ?? 0, length);
        return scheme.Encode(content) switch
        {
            EncodedEpc encoded => (Of(encoded), null),
            EpcRefused no => (null, IdentityProblems.DoesNotFit(no.Reason, EncodeIdentityParts.Pointer(request, no.Reason), request)),
            _ => throw new InvalidOperationException("An encoding is encoded or refused."),
        };
    }

    private static EncodedIdentityResponse Of(EncodedEpc encoded)
    {
        byte[] covered = [(byte)(encoded.Pc.Value >> 8), (byte)(encoded.Pc.Value & 0xFF), .. encoded.Words];
        var content = encoded.Content;
        return new(
            content.Key.ToString(), encoded.Scheme.Name, encoded.Hex, encoded.Bits, 8 * encoded.Words.Length, encoded.Pc.ToString(),
            Crc16.Of(covered).ToString("X4", CultureInfo.InvariantCulture),
            IdentityForms.PureIdentityUri(content, CompanyPrefixes.None), IdentityForms.TagUri(encoded.Scheme, content),
            IdentityForms.ElementString(content.Key), IdentityForms.DigitalLink(content.Key));
    }
}
