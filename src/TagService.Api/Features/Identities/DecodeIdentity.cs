using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Domain.Identity;
using TagService.Domain.Identity.Tags;
using TagService.Domain.Identity.Text;

namespace TagService.Api.Features.Identities;

/// <summary>POST /v1/identities/decode.</summary>
internal static class DecodeIdentity
{
    // The GIAI of GS1 TDS 2.3, annex E.3, with a TID made up from its section 16.
    private static readonly DecodeIdentityRequest Example = new()
    {
        EpcHex = "3476451FD40000000000162E",
        PcHex = "3000",
        TidHex = "E28AB12320000123456789AB",
    };

    public static void Map(IEndpointRouteBuilder group) => group.MapPost("/decode", Handle)
        .WithName("decodeIdentity")
        .WithSummary("What a tag or a text says: identity, scheme, URIs, chip")
        .WithDescription(
            "Reads the EPC field by every scheme of the GS1 EPC Tag Data Standard 2.3, the PC word and the TID, and identities in any text form. "
            + "Two tags are the same identity when identity is equal, whatever their schemes and filters. Bits that follow no scheme are no error: they "
            + "are answered as raw, with the reason in notes. A text that is no identity is refused (400); epcHex and identity that differ are 422.")
        .Accepts<DecodeIdentityRequest>("application/json")
        .WithExamples(static () => Example, static () => IdentityMapping.Of(Example, ReadBits(Example)))
        .WithJsonBodyProblems(ProblemTypes.ContradictoryFields);

    private static async Task<Results<Ok<DecodedIdentityResponse>, ApiProblem>> Handle(HttpContext context, CancellationToken cancellationToken)
    {
        var body = await JsonBody.ReadAsync<DecodeIdentityRequest>(context, null, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var request = body.Value;
        if (IdentityProblems.OfPrefixes(request.CompanyPrefixes) is { } problem)
            return problem;
        if (request is { EpcHex: null, PcHex: null, TidHex: null, Identity: null })
            return new ApiProblem(ProblemTypes.InvalidFields, "There is nothing to decode.", [new("#", null, "None of the members is there.", "epcHex, pcHex, tidHex, identity")]);
        IdentityRead? text = null;
        if (request.Identity is { } sent)
        {
            var reading = IdentityText.Parse(sent);
            if (reading is IdentityRefused refused)
                return IdentityProblems.Malformed(refused.Reason, "#/identity");
            text = (IdentityRead)reading;
        }

        var bits = ReadBits(request);
        return bits is not null && text is not null && bits.Key != text.Key
            ? Different(request, bits, text)
            : TypedResults.Ok(IdentityMapping.Of(request, bits ?? text));
    }

    private static IdentityRead? ReadBits(DecodeIdentityRequest request)
    {
        if (request.EpcHex is not { } hex)
            return null;
        PcWord? pc = PcWord.TryParse(request.PcHex, out var word) ? word : null;
        return IdentityRead.Of(EpcDecoder.Decode(Convert.FromHexString(hex.Length % 2 == 0 ? hex : hex + "0"), 4 * hex.Length, pc));
    }

    private static ApiProblem Different(DecodeIdentityRequest request, IdentityRead bits, IdentityRead text) => ApiProblem.Contradictory(
        "epcHex and identity are two identities.",
        new ProblemError("#/epcHex", JsonText.Clip(request.EpcHex!), $"These bits are {bits.Key}."),
        new ProblemError("#/identity", JsonText.Clip(request.Identity!), $"This text is {text.Key}."));
}
