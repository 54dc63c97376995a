namespace TagService.Domain.Radio;

/// <summary>What the read-range calculator answers.</summary>
/// <param name="ForwardRangeM">Distance in m at which the chip just powers up.</param>
/// <param name="ReturnRangeM">Distance in m at which the reply is just decoded; absent without the reader's gain and sensitivity.</param>
/// <param name="RangeM">The smaller of the two, m.</param>
/// <param name="LimitedBy">Which of the two it is.</param>
/// <param name="ReadProbability">Probability of one look at the wanted distance, 0 to 1; absent without distance and spread.</param>
public sealed record ReadRangeResult(
    double ForwardRangeM, double? ReturnRangeM, double RangeM, RangeLimit LimitedBy, double? ReadProbability);
