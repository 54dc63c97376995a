namespace TagService.Storage.Attachments;

/// <summary>An identity as somebody sent it.</summary>
/// <param name="Identity">Canonical text of the decoded identity.</param>
/// <param name="EpcHex">The EPC field, upper-case hexadecimal, if that was sent.</param>
/// <param name="Scheme">Scheme it follows, if any.</param>
/// <param name="TidHex">TID, upper-case hexadecimal, if that was sent too.</param>
public sealed record TagSeen(string Identity, string? EpcHex, string? Scheme, string? TidHex);
