using TagService.Domain.Identity;
using TagService.Domain.Identity.Schemes;
using TagService.Domain.Numbering;
using TagService.Storage.Tables;

namespace TagService.Api.Features.NumberingRules;

/// <summary>From the wire to the domain and the tables, and back.</summary>
internal static class NumberingRuleMapping
{
    // 9521141 is the company prefix of the examples of the GS1 EPC Tag Data Standard.
    public static NumberingRuleRequest ExampleRequest { get; } =
        new() { Scheme = "giai-96", CompanyPrefix = "9521141", NextNumber = 100_000, LastNumber = 999_999, IsDefault = true };

    public static NumberingRuleResponse Example { get; } = new NumberingRuleRow
    {
        Id = "assets", Scheme = "giai-96", CompanyPrefix = "9521141", FirstNumber = 100_000, NextNumber = 100_000, LastNumber = 999_999, IsDefault = true,
        UpdatedAt = new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero),
    }.ToResponse();

    public static NumberingRule ToRule(this NumberingRuleRequest wanted)
    {
        var scheme = EpcSchemes.Find(wanted.Scheme)!;
        return new()
        {
            Scheme = scheme, CompanyPrefix = wanted.CompanyPrefix, Filter = wanted.Filter ?? 0,
            ClassReference = (scheme.Kind == IdentityKind.Sgtin ? wanted.ItemReference : wanted.AssetType) ?? "",
            Leading = wanted.Leading ?? "", Digits = wanted.Digits,
        };
    }

    public static NumberRange Range(this NumberingRuleRow row) => new(row.ToRule(), row.FirstNumber, row.LastNumber);

    public static void Apply(this NumberingRuleRow row, NumberingRuleRequest wanted, NumberRange range, long next)
    {
        (row.Scheme, row.CompanyPrefix, row.Filter) = (wanted.Scheme, wanted.CompanyPrefix, range.Rule.Filter);
        (row.ClassReference, row.Leading, row.Digits) = (range.Rule.ClassReference, range.Rule.Leading, range.Rule.Digits);
        (row.FirstNumber, row.NextNumber, row.LastNumber) = (range.First, next, range.Last);
        (row.IsDefault, row.Note) = (wanted.IsDefault ?? false, wanted.Note);
    }

    public static NumberingRuleResponse ToResponse(this NumberingRuleRow row)
    {
        var rule = row.ToRule();
        var left = Math.Max(0, row.LastNumber - row.NextNumber + 1);
        return new(
            row.Id, row.Scheme, row.CompanyPrefix, row.Filter, rule.Scheme.Kind == IdentityKind.Grai ? row.ClassReference : null,
            rule.Scheme.Kind == IdentityKind.Sgtin ? row.ClassReference : null, row.Leading.Length == 0 ? null : row.Leading, row.Digits,
            row.NextNumber, row.LastNumber, left, row.HandedOutThrough,
            left > 0 && rule.Encode(row.NextNumber) is EncodedEpc next ? next.Content.Key.ToString() : null, row.IsDefault, row.Note, row.UpdatedAt);
    }
}
