namespace TagService.Domain.Identity;

/// <summary>What the EPC field of a tag says, beyond which scheme it is written in.</summary>
/// <param name="Key">The identity.</param>
/// <param name="Filter">Filter value: a hint for selecting tags over the air, no part of the identity. 0 for schemes without one.</param>
/// <param name="CompanyPrefixLength">Digits of the GS1 company prefix, 6 to 12; 0 where the scheme does not hold it.</param>
/// <param name="Date">Prioritised date of the DSGTIN schemes.</param>
/// <param name="HostName">Host of the owner's Digital Links, in the <c>++</c> schemes.</param>
/// <param name="HasMoreData">The <c>+</c> schemes' toggle bit: further AIs follow the identity. They are not read here.</param>
public readonly record struct EpcContent(
    IdentityKey Key, int Filter = 0, int CompanyPrefixLength = 0, PrioritisedDate? Date = null, string? HostName = null, bool HasMoreData = false);
