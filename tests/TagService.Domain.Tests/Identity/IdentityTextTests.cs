using CsCheck;
using TagService.Domain.Identity;
using TagService.Domain.Identity.Text;

namespace TagService.Domain.Tests.Identity;

/// <summary>Text forms: TDS 2.3, sections 6, 7, 12 and 15 (read); GS1 Digital Link and CBV 2.0 canonical forms (secondary).</summary>
public sealed class IdentityTextTests
{
    // The key of TDS 2.3, annex E.1, and others of annex E.3.
    [Theory]
    [InlineData("8004:95211415678", "3476451FD40000000000162E")]
    [InlineData("8004:95211415678", "3476 451F D400 0000 0000 162E")]
    [InlineData("8004:95211415678", "0x3476451fd40000000000162e")]
    [InlineData("8004:95211415678", " urn:epc:id:giai:9521141.5678 ")]
    [InlineData("8004:95211415678", "URN:EPC:ID:giai:9521141.5678")]
    [InlineData("8004:95211415678", "urn:epc:tag:giai-96:1.9521141.5678")]
    [InlineData("8004:95211415678", "urn:epc:tag:giai-202:0.9521141.5678")]
    [InlineData("8004:95211415678", "urn:epc:tag:[att=x01][umi=1][xpc-w1=x0004]:giai-96:1.9521141.5678")]
    [InlineData("8004:95211415678", "urn:epc:raw:[umi=1]:96.x3476451FD40000000000162E")]
    [InlineData("8004:95211415678", "urn:epc:raw:96.16236200187837064042860516910")]
    [InlineData("8004:95211415678", "(8004)95211415678")]
    [InlineData("8004:95211415678", "https://example.com/assets/8004/95211415678?linkType=all#top")]
    [InlineData("8004:95211415678", "HTTPS://id.gs1.org/8004/95211415678/")]
    [InlineData("01:09506000134352:21:6789", "urn:epc:id:sgtin:95060001343.05.6789")]
    [InlineData("01:09506000134352:21:6789", "(21)6789(01)09506000134352")]
    [InlineData("01:09506000134352:21:6789", "(01)09506000134352(17)270101(21)6789(10)LOT")]
    [InlineData("01:09506000134352:21:6789", "https://id.gs1.org/01/9506000134352/10/LOT/21/6789")]
    [InlineData("01:09506000134352:21:32a%2Fb", "https://id.gs1.org/01/09506000134352/21/32a%2Fb")]
    [InlineData("414:9521141123454", "(414)9521141123454")]
    [InlineData("414:9521141123454", "urn:epc:id:sgln:9521141.12345.0")]
    [InlineData("414:9521141123454:254:32a%2Fb", "https://example.com/414/9521141123454/254/32a%2Fb")]
    [InlineData("8006:095211411234540102:21:981", "urn:epc:id:itip:9521141.012345.01.02.981")]
    [InlineData("8010:95211415PQ7%2FZ43:8011:12345", "urn:epc:id:cpi:9521141.5PQ7%2FZ43.12345")]
    // The last field of a URN may hold dots (table A-1 lets the dot stand).
    [InlineData("8004:9521141A.1", "urn:epc:id:giai:9521141.A.1")]
    [InlineData("urn:epc:id:gid:952056.2718.1414", "3500E86F8000A9E000000586")]
    [InlineData("urn:epc:id:usdod:CAGEY.5678", "urn:epc:tag:usdod-96:3.CAGEY.5678")]
    // TDS 2.3, section 6.3.17 example (secondary): a serial unique within the enterprise leaves the part number empty.
    [InlineData("urn:epc:id:adi:2S194..12345678901", "urn:epc:id:adi:2S194..12345678901")]
    // A part number within the enterprise, DoDAAC of six characters (from memory of TDS 1.x).
    [InlineData("urn:epc:id:adi:W81X9C.3KL984PX1.2WMA52", "urn:epc:tag:adi-var:2.W81X9C.3KL984PX1.2WMA52")]
    // T = 1: ISO content, never read as GS1 although header and bits would do.
    [InlineData("urn:epc:raw:96.xA1.x3476451FD40000000000162E", "urn:epc:raw:96.xA1.x3476451FD40000000000162E")]
    // CBV 2.0 canonical forms (C84; secondary).
    [InlineData("414:4012345000115:254:987", "urn:epc:id:sgln:4012345.00011.987")]
    [InlineData("414:4012345000016", "urn:epc:id:sgln:4012345.00001.0")]
    [InlineData("8003:04012345555554987", "urn:epc:id:grai:4012345.55555.987")]
    [InlineData("8004:400000112345", "urn:epc:id:giai:4000001.12345")]
    // Asset type empty beside a prefix of 12 digits: two dots (TDS 2.3, section 6.3; secondary). Its check digit by hand: 114 in sum, so 6.
    [InlineData("8003:09526567890126400", "urn:epc:id:grai:952656789012..400")]
    public void Parse_KnownForms_GiveTheCanonicalText(string canonical, string text)
    {
        var read = Assert.IsType<IdentityRead>(IdentityText.Parse(text));

        Assert.Equal(canonical, read.Key.ToString());
        Assert.Equal(read.Key, IdentityKey.Parse(canonical));
    }

    [Theory]
    [InlineData("", "identity", "hexadecimal")]
    [InlineData("PUMP-0815", "identity", "urn:epc:id")]
    [InlineData("95211415678", "identity", "multiples of four")] // 11 digits: a number, not bits
    [InlineData("12345678", "identity", "urn:epc:raw:32.x12345678")] // a short register number is no EPC
    [InlineData("urn:epc:id:giai:9521141", "identity", "2 fields")]
    [InlineData("urn:epc:id:giai:95211.5678", "companyPrefix", "6 to 12 digits")]
    // Printed in the figure of TDS 2.3, annex E.2, though no company prefix has 13 digits; its bits are 95060001343.05.6789 (C02).
    [InlineData("urn:epc:id:sgtin:9506000134305.05.6789", "companyPrefix", "6 to 12 digits")]
    [InlineData("urn:epc:id:giai:9521141.5%6", "reference", "%2F")]
    [InlineData("urn:epc:id:giai:9521141.a/b", "reference", "%2F")]
    [InlineData("urn:epc:id:grai:9521141.1234.400", "assetType", "5 digits")]
    [InlineData("urn:epc:id:grai:9521141.12345.", "serial", "1 to 16")]
    [InlineData("urn:epc:id:gid:268435456.1.1", "manager", "268435455")]
    [InlineData("urn:epc:id:adi:2S194.A%23B.1", "serial", "first")]
    [InlineData("urn:epc:id:adi:2I194.AB.1", "code", "without I and O")]
    [InlineData("urn:epc:id:lgtin:9521141.012345.1", "identity", "urn:epc:id:giai")]
    [InlineData("urn:epc:idpat:giai:9521141.*", "identity", "urn:epc:id:")]
    [InlineData("urn:epc:tag:giai-96:1.9521141.0012", "reference", "without leading zeros")]
    [InlineData("urn:epc:tag:giai-96:8.9521141.12", "filter", "0 to 7")]
    [InlineData("urn:epc:tag:sgtin-96:0.9521141.012345.274877906944", "serial", "274877906943")] // one above the 38 bits (C51)
    [InlineData("urn:epc:raw:96.x1234", "identity", "24 hexadecimal digits")]
    [InlineData("urn:epc:raw:512.x00", "identity", "0 to 496")]
    [InlineData("(8004)", "reference", "at most 30")]
    [InlineData("(8004)ABC", "reference", "company prefix")]
    [InlineData("(8004)9521141567890123456789012345678901", "reference", "at most 30")]
    [InlineData("(01)09506000134353(21)1", "checkDigit", "2")]
    [InlineData("(01)09506000134352", "serial", "1 to 20")]
    [InlineData("(8003)09521141123454", "serial", "1 to 16")] // without serial: an asset class, not an asset
    [InlineData("(8003)19521141123454400", "key", "the first 0")]
    [InlineData("(10)LOT", "identity", "(8004)")]
    [InlineData("https://example.com/", "identity", "8004")]
    [InlineData("https://example.com/01/123/21/1", "key", "14 digits")]
    public void Parse_WhatIsNoIdentity_NamesFieldValueAndWhatWouldDo(string text, string field, string accepted)
    {
        var refusal = Assert.IsType<IdentityRefused>(IdentityText.Parse(text)).Reason;

        Assert.Equal(field, refusal.Field);
        Assert.Contains(accepted, refusal.Accepted);
        Assert.NotEmpty(refusal.Detail);
    }

    [Fact]
    public void Parse_MutatedForms_NeverFails()
    {
        var texts = EpcVectors.All.SelectMany(v => new[] { v.Pure, v.Element, v.Hex, $"urn:epc:raw:96.xA1.x{v.Hex}", v.Pure?.Replace("urn:epc:id", "urn:epc:tag"), "https://id.gs1.org/" + v.Element?.Replace('(', '/').Replace(')', '/') }).OfType<string>().ToArray();
        Gen.Select(Gen.OneOf(texts), Gen.Select(Gen.Int[0, 60], Gen.OneOf("", ":", ".", "/", "%", "(", ")", "[", "]", "x", "0", "9", "%2F", "\0", "é", "😀", "-", "(21)", "urn:")).Array[1, 5])
            .Sample((text, edits) =>
            {
                foreach (var (at, insert) in edits)
                    text = insert.Length == 0 && text.Length > 0 ? text.Remove(at % text.Length, 1) : text.Insert(at % (text.Length + 1), insert);
                if (IdentityText.Parse(text) is IdentityRead read)
                    Assert.Equal(read.Key, IdentityKey.Parse(read.Key.ToString()));
            }, iter: 15_000);
    }

    [Theory]
    [InlineData("8004/95211415678")]
    [InlineData("(8004)95211415678")]
    [InlineData("3476451FD40000000000162E")]
    [InlineData(" 8004:95211415678")]
    [InlineData("urn:epc:raw:96.x3476451FD40000000000162E")]
    [InlineData("414:9521141123454:254:0")]
    [InlineData("nothing")]
    [InlineData(null)]
    public void TryParse_OtherSpellings_AreNotTheStoredOne(string? text) => Assert.False(IdentityKey.TryParse(text, out _));

    [Fact]
    public void Key_WithoutValue_IsTheEmptyEpc()
    {
        Assert.Equal("urn:epc:raw:0.x", default(IdentityKey).ToString());
        Assert.Equal(default, IdentityKey.Parse("urn:epc:raw:0.x"));
        Assert.Equal(default, EpcDecoder.Key([], 0));
    }

    [Fact]
    public void CompareTo_AnyIdentities_GoesWithEquality() =>
        Gen.Select(IdentityGens.Identity, IdentityGens.Identity).Sample((a, b) =>
        {
            Assert.Equal(Math.Sign(a.Key.CompareTo(b.Key)), -Math.Sign(b.Key.CompareTo(a.Key)));
            Assert.Equal(a.Key == b.Key, a.Key.CompareTo(b.Key) == 0);
            Assert.Equal(a.Key == b.Key, a.Key.ToString() == b.Key.ToString());
        }, iter: 2000);

    // C18 and annex E.3's GIAI of the same prefix: the bits do not hold the prefix, the owner's list does.
    [Fact]
    public void PureIdentityUri_OfAPlusScheme_NeedsTheOwnersPrefix()
    {
        var decoded = Assert.IsType<DecodedEpc>(EpcDecoder.Decode(EpcVectorTests.Bytes("FA3952114132E83C2BF10"), 84));

        Assert.Null(IdentityForms.PureIdentityUri(decoded.Content, CompanyPrefixes.None));
        Assert.Null(IdentityForms.PureIdentityUri(decoded.Content, new("0614141")));
        Assert.Equal("urn:epc:id:giai:9521141.32a%2Fb", IdentityForms.PureIdentityUri(decoded.Content, new("952114", "9521141")));
        Assert.Throws<ArgumentOutOfRangeException>(() => new CompanyPrefixes("12345"));
    }
}
