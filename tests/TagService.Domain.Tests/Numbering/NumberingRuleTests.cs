using CsCheck;
using TagService.Domain.Identity;
using TagService.Domain.Identity.Schemes;
using TagService.Domain.Numbering;

namespace TagService.Domain.Tests.Numbering;

public sealed class NumberingRuleTests
{
    // GS1 EPC Tag Data Standard 2.3, annex E.3 (read).
    [Theory]
    [InlineData("GIAI-96", "9521141", "", 5678, "3476451FD40000000000162E")]
    [InlineData("GRAI-96", "9521141", "12345", 5678, "3376451FD40C0E400000162E")]
    [InlineData("SGTIN-96", "95060001343", "05", 123456789, "3066C4409047E140075BCD15")]
    public void Encode_PrintedExample_GivesThePrintedBits(string scheme, string prefix, string reference, long number, string hex)
    {
        var rule = new NumberingRule { Scheme = EpcSchemes.Find(scheme)!, CompanyPrefix = prefix, Filter = 3, ClassReference = reference };
        Assert.Equal(hex, Assert.IsType<EncodedEpc>(rule.Encode(number)).Hex);
    }

    // GS1 EPC Tag Data Standard 2.3, table 14-23 (individual asset reference of GIAI-96) and sections 14.6.1 and 14.6.4 (serial of 38 bits); read.
    [Theory]
    [InlineData("GIAI-96", "952114123456", "", 4_398_046_511_103)]
    [InlineData("GIAI-96", "95211412345", "", 35_184_372_088_831)]
    [InlineData("GIAI-96", "9521141234", "", 281_474_976_710_655)]
    [InlineData("GIAI-96", "952114123", "", 4_503_599_627_370_495)]
    [InlineData("GIAI-96", "95211412", "", NumberingRule.HighestNumber)]
    [InlineData("GRAI-96", "9521141", "12345", 274_877_906_943)]
    [InlineData("SGTIN-96", "9521141", "012345", 274_877_906_943)]
    [InlineData("GRAI-170", "9521141", "12345", NumberingRule.HighestNumber)] // 16 characters, as many as the highest number has
    public void LargestFrom_WidthOfTheField_IsTheStandards(string scheme, string prefix, string reference, long largest)
    {
        var rule = new NumberingRule { Scheme = EpcSchemes.Find(scheme)!, CompanyPrefix = prefix, ClassReference = reference };
        Assert.Equal(largest, rule.LargestFrom(1));
    }

    [Theory]
    [InlineData("GIAI-96", "", 4, 1, "reference")] // no leading zeros in the 96-bit schemes (TDS 2.3, section 14.6.5.1)
    [InlineData("GIAI-96", "A", null, 1, "reference")]
    [InlineData("GRAI-170", "AAAAAAAAAAAAAAA", 2, 1, "serial")] // 17 characters of 16
    [InlineData("GIAI-202", "AAAAAAAAAAAAAAAAAAAA", 4, 1, "reference")] // 24 characters of 23 beside a prefix of 7 (table 14-20)
    [InlineData("GIAI-202", "", 3, 1000, "digits")]
    public void Encode_WhatTheSchemeDoesNotHold_NamesTheField(string scheme, string leading, int? digits, long number, string field)
    {
        var type = scheme.StartsWith("GRAI", StringComparison.Ordinal) ? "12345" : "";
        var rule = new NumberingRule { Scheme = EpcSchemes.Find(scheme)!, CompanyPrefix = "9521141", ClassReference = type, Leading = leading, Digits = digits };
        Assert.Equal(field, Assert.IsType<EpcRefused>(rule.Encode(number)).Reason.Field);
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(NumberingRule.HighestNumber + 1)]
    public void Encode_NumberOutOfRange_Throws(long number)
    {
        var rule = new NumberingRule { Scheme = EpcSchemes.GiaiPlus, CompanyPrefix = "9521141" };
        Assert.Throws<ArgumentOutOfRangeException>(() => rule.Encode(number));
    }

    // Checking the first and the last number of a rule is checking all of them.
    [Fact]
    public void Encode_BetweenTwoNumbersThatFit_Fits() => Gen.Select(NumberingGens.Rule, Gen.Long[0, 2_000], Gen.Double[0, 1]).Sample((rule, first, share) =>
    {
        if (rule.Encode(first) is not EncodedEpc)
            return;
        var largest = rule.LargestFrom(first);
        var between = first + (long)((largest - first) * share);
        Assert.IsType<EncodedEpc>(rule.Encode(largest));
        Assert.IsType<EncodedEpc>(rule.Encode(between));
        Assert.True(largest == NumberingRule.HighestNumber || rule.Encode(largest + 1) is EpcRefused);
    });

    [Fact]
    public void Encode_TwoNumbersOfARule_AreTwoIdentities() => Gen.Select(NumberingGens.Rule, Gen.Long[0, 2_000], Gen.Long[0, 2_000]).Sample((rule, a, b) =>
    {
        if (rule.Encode(a) is EncodedEpc one && rule.Encode(b) is EncodedEpc two)
            Assert.Equal(a == b, one.Content.Key == two.Content.Key);
    });
}
