namespace TagService.Api.Features.Fitting;

/// <summary>An identity in the forms a fitter meets.</summary>
/// <param name="Canonical">Canonical text, under which the service keeps it.</param>
/// <param name="Scheme">EPC scheme; absent when only the key is known.</param>
/// <param name="EpcHex">Content of EPC memory from bit 20h on, in hexadecimal; absent when only the key is known.</param>
/// <param name="EpcBits">Length of that content in bits.</param>
/// <param name="PcHex">Protocol control word to write before it, four hexadecimal digits.</param>
/// <param name="ElementString">GS1 element string with brackets; absent for identities outside the GS1 keys.</param>
/// <param name="DigitalLink">Canonical GS1 Digital Link; absent for identities outside the GS1 keys.</param>
/// <param name="Reserved">Reserved for this asset until an attachment uses it; false for the identity of an encoded tag that was asked for.</param>
/// <param name="ReservedAt">When it was reserved.</param>
/// <param name="NumberingRuleId">The numbering rule it came from.</param>
/// <param name="FitsMemory">Whether the recommended tag class has enough memory for it; absent without one.</param>
public sealed record IdentityToWriteResponse(
    string Canonical,
    string? Scheme,
    string? EpcHex,
    int? EpcBits,
    string? PcHex,
    string? ElementString,
    string? DigitalLink,
    bool Reserved,
    DateTimeOffset? ReservedAt,
    string? NumberingRuleId,
    bool? FitsMemory);

/// <summary>What to write, which passwords to set and what to lock. Passwords are never part of it.</summary>
/// <param name="PolicyId">Id of the policy.</param>
/// <param name="Name">Kind of tag it holds for.</param>
/// <param name="IdentityGoesTo">Where on the tag the identity goes.</param>
/// <param name="Steps">The steps, in order.</param>
/// <param name="Passwords">Passwords to set, and where each comes from.</param>
/// <param name="LockPayloadHex">Payload of the lock command, 20 bits in five hexadecimal digits; absent where there is no such command.</param>
/// <param name="OwnersChoices">Settings that cannot be undone, only where the owner of the tags wants them.</param>
/// <param name="Source">Where the policy comes from.</param>
public sealed record TagWritingResponse(
    string PolicyId,
    string Name,
    string IdentityGoesTo,
    IReadOnlyList<string> Steps,
    IReadOnlyList<TagPasswordResponse> Passwords,
    string? LockPayloadHex,
    IReadOnlyList<OwnersChoiceResponse> OwnersChoices,
    string Source);

/// <summary>One password: what it must be like and where it comes from.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Rule">What it must be like.</param>
/// <param name="From">Where it comes from.</param>
public sealed record TagPasswordResponse(string Name, string Rule, string From);

/// <summary>A setting that cannot be undone.</summary>
/// <param name="When">When an owner may want it.</param>
/// <param name="What">What it does.</param>
/// <param name="LockPayloadHex">Payload of the lock command, five hexadecimal digits, where it is one.</param>
public sealed record OwnersChoiceResponse(string When, string What, string? LockPayloadHex);

/// <summary>When the fitted tag is accepted.</summary>
/// <param name="Text">In one sentence.</param>
/// <param name="DistanceM">Distance in m between reader and tag; absent when no check is possible.</param>
/// <param name="EirpDbm">Radiated power to set, in dBm EIRP; absent for HF.</param>
/// <param name="ConductedDbm">The same at the antenna's connector, in dBm; absent for HF.</param>
/// <param name="ReaderGainDbi">Gain in dBi of the reader antenna that the conducted power holds for; absent for HF.</param>
/// <param name="WantedRangeM">Distance in m at which the tag has to answer in use.</param>
/// <param name="WantedEirpDbm">Power radiated in use, in dBm EIRP; absent for HF.</param>
/// <param name="Working">How the figures came about.</param>
/// <param name="WhenSilent">What to do when it does not answer, in order.</param>
/// <param name="Source">Source of the formula.</param>
public sealed record AcceptanceCheckResponse(
    string Text,
    double? DistanceM,
    double? EirpDbm,
    double? ConductedDbm,
    double? ReaderGainDbi,
    double WantedRangeM,
    double? WantedEirpDbm,
    string Working,
    IReadOnlyList<string> WhenSilent,
    string Source);

/// <summary>How to record the result: one call.</summary>
/// <param name="Method">HTTP method.</param>
/// <param name="Address">Address of the call.</param>
/// <param name="Body">What is known of the body already; the fitter adds what was read and measured.</param>
/// <param name="Items">What to record.</param>
public sealed record FittingRecordingResponse(
    string Method, string Address, IReadOnlyDictionary<string, string> Body, IReadOnlyList<RecordItemResponse> Items);

/// <summary>Something to record.</summary>
/// <param name="Id">Id of the item.</param>
/// <param name="Name">What it is.</param>
/// <param name="How">How to get it.</param>
/// <param name="Why">What it is good for.</param>
/// <param name="Required">Is the pair worthless without it?</param>
/// <param name="Field">Names of the fields in the call.</param>
public sealed record RecordItemResponse(string Id, string Name, string How, string Why, bool Required, string Field);
