using TagService.Domain.Fitting;
using TagService.Domain.Identity.Text;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Fitting;

/// <summary>
/// Element strings for bar codes: GS1 General Specifications, predefined lengths and FNC1 (from memory). Keys are the standard's own
/// examples (TDS 2.3, annex E; read).
/// </summary>
public sealed class BarCodeTextsTests
{
    [Theory]
    [InlineData("8004:95211415678", "800495211415678", "https://id.gs1.org/8004/95211415678")]
    [InlineData("01:09506000134352:21:32a%2Fb", "010950600013435221" + "32a/b", "https://id.gs1.org/01/09506000134352/21/32a%2Fb")]
    [InlineData("8003:095211411234545678", "8003095211411234545678", "https://id.gs1.org/8003/095211411234545678")]
    // AI 8010 has no predefined length: the serial needs the separator before it.
    [InlineData("8010:95211415PQ7:8011:123456789012", "801095211415PQ7\u001d8011123456789012", "https://id.gs1.org/8010/95211415PQ7/8011/123456789012")]
    public void Of_Gs1Key_IsElementStringAndDigitalLink(string canonical, string elements, string link)
    {
        var key = Assert.IsType<IdentityRead>(IdentityText.Parse(canonical)).Key;
        Assert.Equal(elements, BarCodeTexts.Gs1DataMatrix(key));
        Assert.Equal(link, BarCodeTexts.Qr(key));
    }

    [Fact]
    public void Of_IdentityWithoutAi_HasNoDataMatrixAndItsOwnTextAsQr()
    {
        var key = Assert.IsType<IdentityRead>(IdentityText.Parse("urn:epc:id:gid:95100000.12345.400")).Key;
        Assert.Null(BarCodeTexts.Gs1DataMatrix(key));
        Assert.Equal(key.ToString(), BarCodeTexts.Qr(key));
    }

    /// <summary>TDS 2.3, section 15.1.1: the PC word of a 96-bit EPC is 3000h, six words and nothing else.</summary>
    [Fact]
    public void IdentityToWrite_NinetySixBits_HasItsPcAndFitsAnUhfTag()
    {
        var identity = IdentityToWrite.Of(Assert.IsType<IdentityRead>(IdentityText.Parse("urn:epc:tag:giai-96:0.9521141.5678")));
        Assert.Equal(("3000", 96), (identity.Pc!.Value.ToString(), identity.Bits));
        Assert.All(TagClassCatalogue.BuiltIn.All, c => Assert.True(identity.FitsInto(c)));
    }

    /// <summary>GIAI-202 needs 202 bits, 13 words of 16: too long for the 128 bits of the catalogue's UHF classes.</summary>
    [Fact]
    public void IdentityToWrite_LongerThanTheMemory_DoesNotFit()
    {
        var classes = TagClassCatalogue.BuiltIn;
        var identity = IdentityToWrite.Of(Assert.IsType<IdentityRead>(IdentityText.Parse("urn:epc:tag:giai-202:0.9521141.5678AB")));
        Assert.Equal(208, identity.Bits);
        Assert.False(identity.FitsInto(classes["paper-label-small"] with { Memory = new(128, 512, true) }));
        Assert.False(identity.FitsInto(classes["paper-label-small"] with { Memory = new(192, 0, true) }));
        Assert.True(identity.FitsInto(classes["paper-label-small"] with { Memory = new(208, 0, true) }));
        Assert.All(classes.All.Where(c => c.Technology != TagTechnology.Uhf), c => Assert.True(identity.FitsInto(c), c.Id));
    }
}
