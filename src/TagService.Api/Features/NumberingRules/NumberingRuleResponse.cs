namespace TagService.Api.Features.NumberingRules;

/// <summary>One numbering rule, and how far it has come.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Scheme">EPC scheme.</param>
/// <param name="CompanyPrefix">GS1 company prefix, the one licensed to the owner of the assets.</param>
/// <param name="Filter">Filter value, without unit.</param>
/// <param name="AssetType">Asset type of grai schemes.</param>
/// <param name="ItemReference">Indicator digit and item reference of sgtin schemes.</param>
/// <param name="Leading">Digits or letters that stand before every number.</param>
/// <param name="Digits">Number of digits to which numbers are padded; absent: not padded.</param>
/// <param name="NextNumber">The number that comes next, without unit.</param>
/// <param name="LastNumber">Last number that may be handed out, without unit.</param>
/// <param name="NumbersLeft">How many numbers are left.</param>
/// <param name="HandedOutThrough">Highest number handed out, without unit; absent while none was. Gaps below it are numbers that were taken and not used.</param>
/// <param name="NextIdentity">Identity that the next number makes, in canonical text; shown, not reserved. Absent when no number is left.</param>
/// <param name="IsDefault">Is it the rule for whoever names none?</param>
/// <param name="Note">Your own remark.</param>
/// <param name="UpdatedAt">When people last changed it; handing out numbers does not count.</param>
public sealed record NumberingRuleResponse(
    string Id,
    string Scheme,
    string CompanyPrefix,
    int Filter,
    string? AssetType,
    string? ItemReference,
    string? Leading,
    int? Digits,
    long NextNumber,
    long LastNumber,
    long NumbersLeft,
    long? HandedOutThrough,
    string? NextIdentity,
    bool IsDefault,
    string? Note,
    DateTimeOffset UpdatedAt);

/// <summary>One page of numbering rules in ordinal order of their ids. The Link header (RFC 8288) has the address of the next page.</summary>
/// <param name="Items">The rules.</param>
/// <param name="NextAfter">The value of after for the next page; absent on the last one.</param>
public sealed record NumberingRulePageResponse(IReadOnlyList<NumberingRuleResponse> Items, string? NextAfter);
