namespace TagService.Domain.Identity;

/// <summary>The check digit of GTIN, SSCC, GLN, GRAI, GDTI, GCN and GSRN.</summary>
public static class CheckDigit
{
    /// <summary>
    /// c = (10 - s mod 10) mod 10, where s sums the digits with the weights 3, 1, 3, ... from the right.
    /// Exact. Tested with the printed keys of GS1 TDS 2.3, annex E.3. Source: GS1 General Specifications, section 7.9 (from memory).
    /// </summary>
    /// <param name="body">The key without its check digit, as a number; leading zeros do not matter.</param>
    /// <returns>0 to 9.</returns>
    public static int Of(ulong body)
    {
        uint sum = 0;
        for (var weight = 3u; body != 0; weight ^= 2) // 3, 1, 3, 1, ...
        {
            (body, var digit) = Math.DivRem(body, 10);
            sum += (uint)digit * weight;
        }

        return (int)((10 - (sum % 10)) % 10);
    }
}
