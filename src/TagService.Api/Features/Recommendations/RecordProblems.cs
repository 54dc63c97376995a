using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Identity.Schemes;
using TagService.Domain.Profiles;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;

namespace TagService.Api.Features.Recommendations;

/// <summary>What makes a readable record unanswerable: names that no table has, and values that contradict each other.</summary>
internal static class RecordProblems
{
    /// <summary>The problem to answer with, or null when the record can be answered.</summary>
    public static ApiProblem? Find(AssetRecord record)
    {
        List<ProblemError>? errors = null;
        if (record.Reading?.Region is { } region && RadioTables.RegionOf(region) is null)
            (errors ??= []).Add(Unknown("#/reading/region", region, "radio region", RadioTables.Regions.All.Select(r => r.Id), " or an ISO 3166 country code of one of them (/v1/radio-regions)"));
        if (record.Reading?.Site is { } site && RadioTables.Sites.Find(site) is null)
            (errors ??= []).Add(Unknown("#/reading/site", site, "kind of place", RadioTables.Sites.All.Select(s => s.Id), " (/v1/site-models)"));
        if (record.Identity?.Scheme is { } scheme && EpcSchemes.Find(scheme)?.FixedBits is null)
            (errors ??= []).Add(Unknown("#/identity/scheme", scheme, "EPC scheme of fixed length", EpcSchemes.All.Where(s => s.FixedBits is not null).Select(s => s.Name), "; for others give epcBits (/v1/identities/encode says how many an identity needs)"));
        for (var i = 0; i < (record.Environment?.IpRequired?.Count ?? 0); i++)
        {
            var code = record.Environment!.IpRequired![i];
            if (!IpCode.TryParse(code, out _))
                (errors ??= []).Add(new($"#/environment/ipRequired/{i}", Clip(code), "Not an IP code.", "IEC 60529 codes such as IP54, IP66, IP68, IPX7, IP69K"));
        }

        if (errors is not null)
            return new(ProblemTypes.InvalidFields, "A name in the record is in none of the tables.", errors);
        var contradictions = RecordContradictions.Find(record);
        return contradictions.Count == 0
            ? null
            : ApiProblem.Contradictory(
                string.Join(" ", contradictions.Select(c => c.Sentence)),
                [.. contradictions.SelectMany(c => new ProblemError[]
                {
                    new($"#{c.PointerA}", c.ValueA, c.Sentence), new($"#{c.PointerB}", c.ValueB, c.Sentence),
                })]);
    }

    private static ProblemError Unknown(string pointer, string value, string what, IEnumerable<string> known, string more)
    {
        var names = known.ToArray();
        var near = NearestName.Of(value, names);
        return new(
            pointer,
            Clip(value),
            near is null ? $"Not a known {what}." : $"Not a known {what}; {near} is the nearest.",
            string.Join(", ", names) + more);
    }

    private static string Clip(string value) => value.Length > 80 ? value[..80] : value;
}
