using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Identity;
using TagService.Domain.Identity.Text;

namespace TagService.Api.Features.Identities;

/// <summary>Which members of a request make up the key of which kind.</summary>
internal static class EncodeIdentityParts
{
    /// <summary>Members that are missing, or of no use for the scheme: all named, or null.</summary>
    public static ApiProblem? Misplaced(EncodeIdentityRequest request, IdentityKind kind)
    {
        (string Name, string? Value, bool Used, bool Needed)[] members =
        [
            ("companyPrefix", request.CompanyPrefix, true, true),
            ("reference", request.Reference, kind == IdentityKind.Giai, true),
            ("assetType", request.AssetType, kind == IdentityKind.Grai, request.CompanyPrefix is not { Length: 12 }),
            ("itemReference", request.ItemReference, kind == IdentityKind.Sgtin, true),
            ("serial", request.Serial, kind != IdentityKind.Giai, true),
        ];
        var whole = request.Identity is not null;
        ProblemError[] errors =
        [
            .. members.Where(m => m.Value is not null && (whole ? m.Name != "companyPrefix" : !m.Used)).Select(m => new ProblemError(
                $"#/{m.Name}", JsonText.Clip(m.Value!), whole ? $"{m.Name} is already in identity." : $"{request.Scheme} has no {m.Name}.", "absent")),
            .. members.Where(m => m.Value is null && !whole && m.Used && m.Needed).Select(m => new ProblemError(
                $"#/{m.Name}", null, $"{m.Name} is missing.", $"{m.Name}, or identity instead of the parts")),
        ];
        return errors.Length == 0 ? null : new(ProblemTypes.InvalidFields, string.Join(" ", errors.Select(e => e.Detail)), errors);
    }

    /// <summary>The key from its parts, which are there.</summary>
    public static IdentityReading Read(EncodeIdentityRequest request, IdentityKind kind) => kind switch
    {
        IdentityKind.Grai => Gs1Keys.Grai(request.CompanyPrefix!, request.AssetType ?? "", request.Serial!),
        IdentityKind.Sgtin => Gs1Keys.Sgtin(request.CompanyPrefix!, request.ItemReference!, request.Serial!),
        _ => Gs1Keys.Giai(request.CompanyPrefix!, request.Reference!),
    };

    /// <summary>The member that a refusal is about.</summary>
    public static string Pointer(EncodeIdentityRequest request, Refusal refusal) => refusal.Field switch
    {
        "companyPrefix" or "scheme" => $"#/{refusal.Field}",
        _ when request.Identity is not null => "#/identity",
        _ => $"#/{refusal.Field}",
    };
}
