using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Identity;

namespace TagService.Api.Features.Identities;

/// <summary>Refusals of the domain as problems.</summary>
internal static class IdentityProblems
{
    private const string SchemePointer = "#/scheme";

    /// <summary>Company prefixes that are none, or null.</summary>
    public static ApiProblem? OfPrefixes(IReadOnlyList<string>? prefixes)
    {
        ProblemError[] errors =
        [
            .. (prefixes ?? []).Select((p, i) => (Prefix: p, Index: i)).Where(p => !CompanyPrefixes.IsPrefix(p.Prefix)).Take(50)
                .Select(p => new ProblemError($"#/companyPrefixes/{p.Index}", JsonText.Clip(p.Prefix), "This is no GS1 company prefix.", "6 to 12 digits")),
        ];
        return errors.Length == 0 ? null : new(ProblemTypes.InvalidFields, "A company prefix is none.", errors);
    }

    /// <summary>A text, or parts of a key, that are no identity: malformed.</summary>
    /// <param name="refusal">What the domain says.</param>
    /// <param name="pointer">Where it was sent.</param>
    public static ApiProblem Malformed(Refusal refusal, string pointer) =>
        new(ProblemTypes.InvalidFields, refusal.Detail, [ErrorOf(refusal, pointer)]);

    /// <summary>An identity and a scheme that do not go together: each is fine by itself.</summary>
    /// <param name="refusal">What the domain says.</param>
    /// <param name="pointer">Where the value was sent.</param>
    /// <param name="request">The request.</param>
    public static ApiProblem DoesNotFit(Refusal refusal, string pointer, EncodeIdentityRequest request) => ApiProblem.Contradictory(
        refusal.Detail,
        ErrorOf(refusal, pointer),
        pointer == SchemePointer
            ? new ProblemError("#/identity", request.Identity is { } text ? JsonText.Clip(text) : null, "Not a key that this scheme holds.")
            : new ProblemError(SchemePointer, request.Scheme, $"{request.Scheme} does not hold this {refusal.Field}."));

    /// <summary>A company prefix that the identity does not begin with.</summary>
    /// <param name="companyPrefix">The prefix.</param>
    /// <param name="identity">The identity as sent.</param>
    public static ApiProblem NotItsPrefix(string companyPrefix, string identity) => ApiProblem.Contradictory(
        "The identity does not begin with this company prefix.",
        new ProblemError("#/companyPrefix", companyPrefix, "Not the beginning of the key."),
        new ProblemError("#/identity", JsonText.Clip(identity), "A key with another company prefix."));

    private static ProblemError ErrorOf(Refusal refusal, string pointer) =>
        new(pointer, refusal.Value is null ? null : JsonText.Clip(refusal.Value), refusal.Detail, refusal.Accepted);
}
