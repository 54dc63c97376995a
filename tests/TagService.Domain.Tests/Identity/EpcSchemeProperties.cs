using CsCheck;
using TagService.Domain.Identity;
using TagService.Domain.Identity.Schemes;
using TagService.Domain.Identity.Tags;
using TagService.Domain.Identity.Text;

namespace TagService.Domain.Tests.Identity;

/// <summary>What TDS 2.3 asks of every scheme: what is written is read again, the filter is no part of the identity, nothing that is read fails.</summary>
public sealed class EpcSchemeProperties
{
    public static TheoryData<string> Schemes => [.. EpcSchemes.All.Select(s => s.Name)];

    [Theory]
    [MemberData(nameof(Schemes))]
    public void Encode_ThenDecode_GivesTheContentBack(string name)
    {
        var scheme = EpcSchemes.Find(name)!;
        var encodedOnes = 0;
        IdentityGens.ContentFor(scheme).Sample(content =>
        {
            switch (scheme.Encode(content))
            {
                case EncodedEpc encoded:
                    Interlocked.Increment(ref encodedOnes);
                    var bits = 8 * encoded.Words.Length;
                    var decoded = Assert.IsType<DecodedEpc>(EpcDecoder.Decode(encoded.Words.AsSpan(), bits, encoded.Pc));
                    Assert.Equal((scheme, content), (decoded.Scheme, decoded.Content));
                    Assert.Equal(content.Key, EpcDecoder.Key(encoded.Words.AsSpan(), bits));
                    Assert.Equal(bits, encoded.Pc.EpcBits);
                    Assert.InRange(encoded.Bits, bits - 15, bits);
                    Assert.Equal(scheme.FixedBits ?? encoded.Bits, encoded.Bits);
                    break;
                case EpcRefused refused:
                    // What a scheme of fixed width refuses is a value of the caller, so it is named.
                    Assert.NotEmpty(refused.Reason.Field);
                    Assert.NotEmpty(refused.Reason.Accepted);
                    Assert.NotEmpty(refused.Reason.Detail);
                    break;
            }
        }, iter: 500);

        Assert.InRange(encodedOnes, 30, 500);
    }

    [Theory]
    [MemberData(nameof(Schemes))]
    public void TextForms_OfWhatIsEncoded_LeadBackToTheKey(string name)
    {
        var scheme = EpcSchemes.Find(name)!;
        IdentityGens.ContentFor(scheme).Where(c => scheme.Encode(c) is EncodedEpc).Sample(content =>
        {
            // Without a bracketed number in a value, which element strings cannot hold.
            var element = IdentityForms.ElementString(content.Key);
            string?[] forms =
            [
                content.Key.ToString(), IdentityForms.TagUri(scheme, content), IdentityForms.DigitalLink(content.Key),
                IdentityForms.PureIdentityUri(content.Key, content.CompanyPrefixLength), ((EncodedEpc)scheme.Encode(content)).Hex,
                content.Key.Value().Contains('(') ? null : element,
            ];
            Assert.All(forms.OfType<string>(), f => Assert.Equal(content.Key, Assert.IsType<IdentityRead>(IdentityText.Parse(f)).Key));
            Assert.True(IdentityKey.TryParse(content.Key.ToString(), out var key) && key == content.Key);
            Assert.InRange(content.Key.ToString().Length, 1, IdentityKey.MaxTextLength);
            Assert.Equal(scheme.HasTagUri, IdentityForms.TagUri(scheme, content) is not null);
        }, iter: 150);
    }

    // TDS 2.3, section 10 (read): the filter is no part of the identity. One GTIN and serial in SGTIN-96, SGTIN-198 and SGTIN+ is one identity.
    [Fact]
    public void Key_AcrossSchemesAndFilters_IsOne()
    {
        var pairs = 0;
        IdentityGens.Identity.SelectMany(identity => Gen.Select(Gen.Const(identity), Gen.OneOf(EpcSchemes.All.Where(s => s.Kind == identity.Key.Kind && !s.HoldsDate && !s.HoldsHostName).ToArray()), Gen.Int[0, 63]))
            .Sample((identity, scheme, filter) =>
            {
                var content = identity.Content with { Filter = Math.Min(filter, scheme.HighestFilter) };
                if (scheme.Encode(content) is EncodedEpc encoded)
                {
                    Interlocked.Increment(ref pairs);
                    Assert.Equal(identity.Key, EpcDecoder.Key(encoded.Words.AsSpan(), 8 * encoded.Words.Length));
                    Assert.Equal(identity.Key.GetHashCode(), EpcDecoder.Key(encoded.Words.AsSpan(), 8 * encoded.Words.Length).GetHashCode());
                }
            }, iter: 5000);

        Assert.InRange(pairs, 1000, 5000);
    }

    [Theory]
    [MemberData(nameof(Schemes))]
    public void Decode_DamagedBits_NeverFailsAndKeepsTheRead(string name)
    {
        var scheme = EpcSchemes.Find(name)!;
        var valid = IdentityGens.ContentFor(scheme).Select(c => scheme.Encode(c) is EncodedEpc e ? e.Words.ToArray() : [scheme.Header]);
        var random = Gen.Byte.Array[0, 61].Select(tail => (byte[])[scheme.Header, .. tail]);
        Gen.Select(Gen.OneOf(valid, random), Gen.Select(Gen.Int[1, 61], Gen.Byte).Array[0, 3], Gen.Double.Unit).Sample((epc, damages, part) =>
        {
            foreach (var (at, value) in damages)
                epc[at % epc.Length] ^= at % epc.Length == 0 ? (byte)0 : value;
            AssertKept(epc, (int)(epc.Length * 8 * part));
            AssertKept(epc, epc.Length * 8);
        }, iter: 800);
    }

    [Fact]
    public void Decode_AnyBits_NeverFailsAndKeepsTheRead() =>
        Gen.Select(Gen.Byte.Array[0, 62], Gen.Int[0, 7], Gen.UShort.Nullable()).Sample((epc, less, pc) =>
        {
            var bits = Math.Max(0, (8 * epc.Length) - less);
            AssertKept(epc, bits);
            PcWord? word = pc is { } p ? new(p) : null;
            Assert.Equal(EpcDecoder.Decode(epc, bits, word).Key, EpcDecoder.Key(epc, bits, word));
        }, iter: 30_000);

    [Fact]
    public void Decode_MoreBitsThanThereAre_IsTheCallersMistake()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => EpcDecoder.Key(new byte[12], 97));
        Assert.Throws<ArgumentOutOfRangeException>(() => EpcDecoder.Key(new byte[63], 504));
        Assert.Throws<ArgumentOutOfRangeException>(() => EpcDecoder.Decode(new byte[12], -1));
    }

    // Read events come by the million: the keys of the 96-bit GS1 schemes must not feed the garbage collector.
    [Fact]
    public void Key_OfDigitsOnly_AllocatesNothing()
    {
        byte[][] epcs = [.. EpcVectors.All.Where(v => v.Scheme.EndsWith("-96", StringComparison.Ordinal)).Select(v => EpcVectorTests.Bytes(v.Hex)), new byte[12]];
        var sum = Keys(epcs);
        var before = GC.GetAllocatedBytesForCurrentThread();
        sum += Keys(epcs);
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.NotEqual(0, sum);
    }

    private static long Keys(byte[][] epcs)
    {
        long sum = 0;
        foreach (var epc in epcs)
            sum += EpcDecoder.Key(epc, 8 * epc.Length).GetHashCode();
        return sum;
    }

    [Fact]
    public void SmallestFor_AnyIdentity_NeedsNoMoreThanAnyOther() =>
        IdentityGens.Identity.Sample(identity =>
        {
            var (scheme, bits) = EpcSchemes.SmallestFor(identity.Key, identity.Content.CompanyPrefixLength)!.Value;
            Assert.Equal(bits, scheme.RequiredBits(identity.Key, identity.Content.CompanyPrefixLength));
            Assert.All(EpcSchemes.All.Where(s => s.Kind == identity.Key.Kind), s =>
                Assert.True((bits + 15) / 16 <= ((s.RequiredBits(identity.Key, identity.Content.CompanyPrefixLength) ?? 496) + 15) / 16));
        }, iter: 500);

    private static void AssertKept(byte[] epc, int bits)
    {
        var decoding = EpcDecoder.Decode(epc, bits);
        Assert.Equal(decoding.Key, EpcDecoder.Key(epc, bits));
        Assert.True(IdentityKey.TryParse(decoding.Key.ToString(), out var again) && again == decoding.Key, decoding.Key.ToString());
        switch (decoding)
        {
            case RawEpc raw:
                Assert.NotEmpty(raw.Reason);
                Assert.Equal($"urn:epc:raw:{bits}.x{Number(epc, bits)}", raw.Key.ToString());
                break;
            case DecodedEpc { Scheme.HoldsHostName: true, Content.HostName: null }:
                break;
            case DecodedEpc decoded:
                var encoded = Assert.IsType<EncodedEpc>(decoded.Scheme.Encode(decoded.Content));
                Assert.Equal(decoded.Key, EpcDecoder.Key(encoded.Words.AsSpan(), 8 * encoded.Words.Length));
                break;
        }
    }

    /// <summary>The bits as one number in hexadecimal, made from a string of zeros and ones.</summary>
    private static string Number(byte[] epc, int bits)
    {
        var binary = string.Concat(epc.Select(b => b.ToString("b8", null)))[..bits].PadLeft((bits + 3) / 4 * 4, '0');
        return string.Concat(binary.Chunk(4).Select(n => Convert.ToInt32(new string(n), 2).ToString("X", null)));
    }
}
