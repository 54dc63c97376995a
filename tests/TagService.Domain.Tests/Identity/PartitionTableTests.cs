using TagService.Domain.Identity;
using TagService.Domain.Identity.Schemes;

namespace TagService.Domain.Tests.Identity;

/// <summary>The printed partition tables of TDS 2.3, section 14.6 (read): company prefix bits and digits, then bits and digits of the other field.</summary>
public sealed class PartitionTableTests
{
    // Tables 14-7, 14-16, 14-19, 14-10, 14-23, 14-20 (GIAI-202), 14-34.
    [Theory]
    [InlineData("SSCC-96", "40/12/18/5 37/11/21/6 34/10/24/7 30/9/28/8 27/8/31/9 24/7/34/10 20/6/38/11")]
    [InlineData("SGTIN-96", "40/12/4/1 37/11/7/2 34/10/10/3 30/9/14/4 27/8/17/5 24/7/20/6 20/6/24/7")]
    [InlineData("GRAI-96", "40/12/4/0 37/11/7/1 34/10/10/2 30/9/14/3 27/8/17/4 24/7/20/5 20/6/24/6")]
    [InlineData("SGLN-96", "40/12/1/0 37/11/4/1 34/10/7/2 30/9/11/3 27/8/14/4 24/7/17/5 20/6/21/6")]
    [InlineData("GIAI-96", "40/12/42/13 37/11/45/14 34/10/48/15 30/9/52/16 27/8/55/17 24/7/58/18 20/6/62/19")]
    [InlineData("GIAI-202", "40/12/148/18 37/11/151/19 34/10/154/20 30/9/158/21 27/8/161/22 24/7/164/23 20/6/168/24")]
    [InlineData("CPI-96", "40/12/11/3 37/11/14/4 34/10/17/5 30/9/21/6 27/8/24/7 24/7/27/8 20/6/31/9")]
    public void Rows_OfEachTable_AreThePrintedOnes(string scheme, string printed)
    {
        var table = scheme switch
        {
            "GIAI-96" => Giai96Scheme.Table,
            "GIAI-202" => Giai202Scheme.Table,
            "CPI-96" => Cpi96Scheme.Table,
            _ => Assert.IsType<PartitionedScheme>(EpcSchemes.Find(scheme)).Table,
        };

        Assert.Equal(printed, string.Join(' ', table.Rows.Select(r => $"{r.PrefixBits}/{r.PrefixDigits}/{r.OtherBits}/{r.OtherDigits}")));
        Assert.Equal(Enumerable.Range(0, 7), table.Rows.Select(r => r.Partition));
    }

    // Table 14-1.
    [Theory]
    [InlineData(96, "GDTI-96 GSRN-96 GSRNP-96 USDoD-96 SGTIN-96 SSCC-96 SGLN-96 GRAI-96 GIAI-96 GID-96 CPI-96 SGCN-96")]
    [InlineData(84, "SSCC+ GSRN+ GSRNP+")]
    [InlineData(110, "ITIP-110")]
    [InlineData(113, "GDTI-113")]
    [InlineData(170, "GRAI-170")]
    [InlineData(174, "GDTI-174")]
    [InlineData(195, "SGLN-195")]
    [InlineData(198, "SGTIN-198")]
    [InlineData(202, "GIAI-202")]
    [InlineData(212, "ITIP-212")]
    public void FixedBits_OfSchemes_AreThePrintedOnes(int bits, string schemes) =>
        Assert.Equal(schemes.Split(' ').Order(), EpcSchemes.All.Where(s => s.FixedBits == bits).Select(s => s.Name).Order());

    // CPI-var, table 14-35: most characters beside 12 to 6 digits.
    [Fact]
    public void CpiVar_MostCharacters_AreThePrintedOnes() =>
        Assert.Equal([18, 19, 20, 21, 22, 23, 24], CpiVarScheme.Table.Rows.Select(r => r.OtherDigits));

    // TDS 2.3, annex E.3 and 7.3: 8061414112345?, 0950600013435?, 952114112345? (printed keys, read and secondary).
    [Theory]
    [InlineData(8061414112345, 8)]
    [InlineData(0950600013435, 2)]
    [InlineData(952114112345, 4)]
    public void CheckDigit_OfPrintedKeys_IsThePrintedOne(ulong body, int digit) => Assert.Equal(digit, CheckDigit.Of(body));
}
