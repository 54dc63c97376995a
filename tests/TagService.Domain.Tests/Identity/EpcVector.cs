namespace TagService.Domain.Tests.Identity;

/// <summary>One published EPC: bits and the text forms printed beside them.</summary>
/// <param name="Id">Number of the check.</param>
/// <param name="Scheme">Scheme.</param>
/// <param name="Hex">Bits; trailing zeros may be missing or too many, since the standard pads by nibble, byte and word.</param>
/// <param name="Filter">Filter value.</param>
/// <param name="PrefixLength">Digits of the company prefix; 0 for none.</param>
/// <param name="Pure">Pure identity URI; null for schemes that do not lead to one by themselves.</param>
/// <param name="Element">Element string; null outside the GS1 keys.</param>
/// <param name="Source">Where it is printed.</param>
/// <param name="Host">Host of the Digital Link in the bits.</param>
public sealed record EpcVector(
    string Id, string Scheme, string Hex, int Filter, int PrefixLength, string? Pure, string? Element, string Source, string? Host = null)
{
    public override string ToString() => $"{Id} {Scheme}";
}
