using TagService.Domain.Identity;
using TagService.Domain.Identity.Schemes;
using TagService.Domain.Identity.Text;

namespace TagService.Domain.Tests.Identity;

/// <summary>Published EPCs, read and written; the source stands beside each row of <see cref="EpcVectors"/>.</summary>
public sealed class EpcVectorTests
{
    public static TheoryData<EpcVector> Vectors => [.. EpcVectors.All];

    [Theory]
    [MemberData(nameof(Vectors))]
    public void Decode_PublishedBits_GivesThePrintedForms(EpcVector vector)
    {
        var decoded = Assert.IsType<DecodedEpc>(EpcDecoder.Decode(Bytes(vector.Hex), 4 * vector.Hex.Length));

        Assert.Equal(vector.Scheme, decoded.Scheme.Name);
        Assert.Equal((vector.Filter, vector.PrefixLength, vector.Host), (decoded.Content.Filter, decoded.Content.CompanyPrefixLength, decoded.Content.HostName));
        Assert.Equal(vector.Element, IdentityForms.ElementString(decoded.Content));
        Assert.Equal(vector.Pure, IdentityForms.PureIdentityUri(decoded.Content, CompanyPrefixes.None));
        Assert.Equal(decoded.Key, EpcDecoder.Key(Bytes(vector.Hex), 4 * vector.Hex.Length));
        // The tag URI is the pure identity URI with scheme and filter (TDS 2.3, section 12.4); the + schemes have neither.
        var filter = decoded.Scheme.HighestFilter > 0 ? $"{vector.Filter}." : "";
        Assert.Equal(
            vector.Pure is null ? null : $"urn:epc:tag:{vector.Scheme.ToLowerInvariant()}:{filter}{vector.Pure.Split(':', 5)[4]}",
            IdentityForms.TagUri(decoded.Scheme, decoded.Content));
    }

    [Theory]
    [MemberData(nameof(Vectors))]
    public void Encode_PrintedForm_GivesThePublishedBits(EpcVector vector)
    {
        var read = Assert.IsType<IdentityRead>(IdentityText.Parse(vector.Element ?? vector.Pure!));
        PrioritisedDate? date = vector.Scheme.StartsWith('D') ? new(4, 22, 6, 30) : null;

        var encoded = Assert.IsType<EncodedEpc>(EpcSchemes.Find(vector.Scheme)!.Encode(new(read.Key, vector.Filter, vector.PrefixLength, date, vector.Host)));

        Assert.Equal(vector.Hex.TrimEnd('0'), encoded.Hex.TrimEnd('0'));
        Assert.Equal(0, encoded.Hex.Length % 4);
    }

    [Theory]
    [MemberData(nameof(Vectors))]
    public void Parse_EveryForm_GivesOneKey(EpcVector vector)
    {
        var decoded = Assert.IsType<DecodedEpc>(EpcDecoder.Decode(Bytes(vector.Hex), 4 * vector.Hex.Length));
        string?[] forms =
        [
            vector.Pure, vector.Element, IdentityForms.TagUri(decoded.Scheme, decoded.Content), IdentityForms.DigitalLink(decoded.Key),
            IdentityForms.DigitalLink(decoded.Key, "register.example.com:8443/things"), decoded.Key.ToString(), vector.Hex.PadRight((vector.Hex.Length + 3) / 4 * 4, '0'),
            $"urn:epc:raw:{4 * vector.Hex.Length}.x{vector.Hex}",
        ];

        Assert.All(forms.OfType<string>(), f => Assert.Equal(decoded.Key, Assert.IsType<IdentityRead>(IdentityText.Parse(f)).Key));
    }

    // E.3 prints these links (TDS 2.3, read); SGLN and CPI with their second AI, the slash of the serial escaped.
    [Theory]
    [InlineData("F73795211411234538566CB0AFC4", "https://id.gs1.org/01/79521141123453/21/32a%2Fb")]
    [InlineData("F2395211411234548566CB0AFC4", "https://id.gs1.org/414/9521141123454/254/32a%2Fb")]
    [InlineData("F13095211411234548566CB0AFC4", "https://id.gs1.org/8003/0952114112345432a%2Fb")]
    [InlineData("FA3952114132E83C2BF10", "https://id.gs1.org/8004/952114132a%2Fb")]
    [InlineData("F0395211415E87A145BAFB4D19A8C0E4", "https://id.gs1.org/8010/95211415PQ7%2FZ43/8011/12345")]
    [InlineData("F3309521141123454010266AE27FDF35", "https://id.gs1.org/8006/095211411234540102/21/rif981")]
    [InlineData("EB3095211411234548566CB0AFC525065F1876F0D996D800", "https://id.example.com/8003/0952114112345432a%2Fb")]
    public void DigitalLink_PublishedBits_IsThePrintedOne(string hex, string link)
    {
        var decoded = Assert.IsType<DecodedEpc>(EpcDecoder.Decode(Bytes(hex), 4 * hex.Length));

        Assert.Equal(link, IdentityForms.DigitalLink(decoded.Key, decoded.Content.HostName));
    }

    [Fact]
    public void Vectors_TogetherWithTheRegistry_CoverEverySchemeButTheDeprecatedOne() =>
        Assert.Equal(["GDTI-113"], EpcSchemes.All.Select(s => s.Name).Except(EpcVectors.All.Select(v => v.Scheme)));

    internal static byte[] Bytes(string hex) => Convert.FromHexString(hex.Length % 2 == 0 ? hex : hex + "0");
}
