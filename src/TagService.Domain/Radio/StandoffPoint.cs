namespace TagService.Domain.Radio;

/// <summary>One point of the range-against-spacer curve.</summary>
/// <param name="AddedStandoffMm">Spacer under the tag, mm.</param>
/// <param name="P10M">Distance that 90 % of such assets exceed, m.</param>
/// <param name="P50M">Median, m.</param>
/// <param name="P90M">Distance that 10 % exceed, m.</param>
/// <param name="Reads">Whether the class usefully reads at this spacing.</param>
public sealed record StandoffPoint(double AddedStandoffMm, double P10M, double P50M, double P90M, bool Reads);
