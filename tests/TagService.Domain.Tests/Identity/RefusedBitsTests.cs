using TagService.Domain.Identity;
using TagService.Domain.Identity.Schemes;
using TagService.Domain.Identity.Tags;
using TagService.Domain.Identity.Text;

namespace TagService.Domain.Tests.Identity;

/// <summary>Bits that follow no scheme, and identities that do not go into one: values at and beyond the limits of TDS 2.3, section 14.6 (read).</summary>
public sealed class RefusedBitsTests
{
    [Theory]
    [InlineData("301C00000000000000000000", "partition")] // C60: partition 7
    [InlineData("3416625A0000000000000001", "more digits")] // C61: prefix 10,000,000 in seven digits
    [InlineData("000000000000000000000000", "never programmed")]
    [InlineData("E28068940000501234567890", "look like a TID")] // E2: reserved for ever
    [InlineData("FF0000000000000000000000", "longer headers")]
    [InlineData("420000000000000000000000", "not assigned")]
    [InlineData("311BA1B300CE0A6A83000001", "reserves")] // C07 with a reserved bit set
    [InlineData("3F76451FD612640000000002", "leading zeros")] // C29 with a serial that does not begin with 1
    [InlineData("3476451FD400000000", "ends before")] // C16 cut
    [InlineData("3876451FD4000000000000000000000000000000000000000000", "empty")] // C17 without its reference
    public void Decode_BrokenBits_StaysRawWithTheReason(string hex, string reason)
    {
        var raw = Assert.IsType<RawEpc>(EpcDecoder.Decode(EpcVectorTests.Bytes(hex), 4 * hex.Length));

        Assert.Contains(reason, raw.Reason);
        Assert.Equal($"urn:epc:raw:{4 * hex.Length}.x{hex}", raw.Key.ToString());
    }

    // TDS 2.3, sections 9.3 and 15.2: T = 1 is not GS1's, the AFI stands in the raw URI; the length field says where the EPC ends.
    [Fact]
    public void Decode_WithPcWord_FollowsToggleAndLength()
    {
        var epc = EpcVectorTests.Bytes("3476451FD40000000000162E");

        Assert.Equal("urn:epc:raw:96.xA1.x3476451FD40000000000162E", EpcDecoder.Decode(epc, 96, new PcWord(0x31A1)).Key.ToString());
        Assert.Equal("8004:95211415678", EpcDecoder.Key([.. epc, 0xAB, 0xCD], 112, new PcWord(0x3000)).ToString());
        // The low byte is XPC during inventory and says nothing (TDS 2.3, section 9.3).
        Assert.Equal("8004:95211415678", EpcDecoder.Key(epc, 96, new PcWord(0x34FF & ~0x0100)).ToString());
        // Bits behind a scheme of fixed length do not count (section 14.4, step 3).
        Assert.Equal("8004:95211415678", EpcDecoder.Key([.. epc, 0xAB, 0xCD], 112).ToString());
    }

    [Theory]
    [InlineData("GIAI-96", "952114", "4611686018427387903", null)] // 2^62 - 1, C49
    [InlineData("GIAI-96", "952114", "4611686018427387904", "reference")]
    [InlineData("GIAI-96", "952656789012", "4398046511103", null)] // 2^42 - 1, table 14-23
    [InlineData("GIAI-96", "952656789012", "4398046511104", "reference")]
    [InlineData("GIAI-96", "9521141", "0", null)]
    [InlineData("GIAI-96", "9521141", "007", "reference")]
    [InlineData("GIAI-96", "9521141", "A1", "reference")]
    [InlineData("GIAI-202", "952656789012", "345678901234567890", null)] // 18 characters, C53
    [InlineData("GIAI-202", "9521141", "007", null)]
    [InlineData("GIAI+", "9521141", "007", null)]
    public void Encode_GiaiAtTheLimits_TakesOrNames(string scheme, string prefix, string reference, string? refused) =>
        AssertOutcome(scheme, Gs1Keys.Giai(prefix, reference), refused);

    [Theory]
    [InlineData("GRAI-96", "274877906943", null)] // 2^38 - 1
    [InlineData("GRAI-96", "274877906944", "serial")]
    [InlineData("GRAI-96", "0", null)]
    [InlineData("GRAI-96", "00", "serial")]
    [InlineData("GRAI-96", "A", "serial")]
    [InlineData("GRAI-170", "1234567890123456", null)] // 16 characters
    [InlineData("GRAI-170", "00", null)]
    [InlineData("GRAI+", "00", null)]
    public void Encode_GraiAtTheLimits_TakesOrNames(string scheme, string serial, string? refused) =>
        AssertOutcome(scheme, Gs1Keys.Grai("9521141", "12345", serial), refused);

    [Theory]
    [InlineData("SGTIN-96", "274877906943", null)] // C51
    [InlineData("SGTIN-96", "274877906944", "serial")]
    [InlineData("SGTIN-198", "12345678901234567890", null)] // 20 characters
    [InlineData("SGTIN-198", "274877906944", null)]
    [InlineData("SGTIN+", "a_b", null)]
    public void Encode_SgtinAtTheLimits_TakesOrNames(string scheme, string serial, string? refused) =>
        AssertOutcome(scheme, Gs1Keys.Sgtin("9521141", "012345", serial), refused);

    [Theory]
    [InlineData("12345", "1", "companyPrefix")]
    [InlineData("1234567890123", "1", "companyPrefix")]
    [InlineData("95211X1", "1", "companyPrefix")]
    [InlineData("9521141", "", null)] // prefix alone: an empty reference is found when it is encoded
    [InlineData("9521141", "123456789012345678901234", "reference")] // 31 characters
    [InlineData("9521141", "a b", "reference")]
    [InlineData("9521141", "ü", "reference")]
    public void Giai_OfUnusableParts_NamesTheField(string prefix, string reference, string? field) =>
        Assert.Equal(field, (Gs1Keys.Giai(prefix, reference) as IdentityRefused)?.Reason.Field);

    [Fact]
    public void Encode_WithoutWhatTheSchemeHolds_NamesIt()
    {
        var giai = Assert.IsType<IdentityRead>(Gs1Keys.Giai("9521141", "5678"));
        var sgtin = Assert.IsType<IdentityRead>(Gs1Keys.Sgtin("9521141", "012345", "1"));

        Assert.Equal("companyPrefix", Refused(EpcSchemes.Giai96, giai.Content with { CompanyPrefixLength = 0 }));
        Assert.Equal("companyPrefix", Refused(EpcSchemes.Giai96, giai.Content with { CompanyPrefixLength = 11 }));
        Assert.Equal("filter", Refused(EpcSchemes.Giai96, giai.Content with { Filter = 8 }));
        Assert.Equal("scheme", Refused(EpcSchemes.Grai96, giai.Content));
        Assert.Equal("hostName", Refused(EpcSchemes.Find("GIAI++")!, giai.Content));
        Assert.Equal("date", Refused(EpcSchemes.Find("DSGTIN+")!, sgtin.Content));
        Assert.Equal("date", Refused(EpcSchemes.Find("DSGTIN+")!, sgtin.Content with { Date = new(4, 26, 2, 30) }));
    }

    // Widths of the standard's names; GIAI+ of 30 digits: 136 bits in whole words 144 (C54).
    [Theory]
    [InlineData("GIAI-96", "9521141", "5678", 96)]
    [InlineData("GIAI-202", "9521141", "5678", 202)]
    [InlineData("GIAI+", "9521141", "5678", 64)]
    [InlineData("GIAI+", "952656789012", "345678901234567890", 144)]
    [InlineData("GIAI-96", "9521141", "A", null)]
    public void RequiredBits_OfAGiai_AreThoseOfTheStandard(string scheme, string prefix, string reference, int? bits) =>
        Assert.Equal(bits, EpcSchemes.Find(scheme)!.RequiredBits(Assert.IsType<IdentityRead>(Gs1Keys.Giai(prefix, reference)).Key, prefix.Length));

    private static string Refused(EpcScheme scheme, EpcContent content) => Assert.IsType<EpcRefused>(scheme.Encode(content)).Reason.Field;

    private static void AssertOutcome(string scheme, IdentityReading reading, string? refused)
    {
        var encoding = EpcSchemes.Find(scheme)!.Encode(Assert.IsType<IdentityRead>(reading).Content);

        Assert.Equal(refused, (encoding as EpcRefused)?.Reason.Field);
        if (encoding is EncodedEpc encoded)
            Assert.Equal(((IdentityRead)reading).Key, EpcDecoder.Key(encoded.Words.AsSpan(), 8 * encoded.Words.Length));
    }
}
