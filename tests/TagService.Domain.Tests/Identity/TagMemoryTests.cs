using CsCheck;
using TagService.Domain.Identity;
using TagService.Domain.Identity.Tags;

namespace TagService.Domain.Tests.Identity;

/// <summary>PC word, CRC, TID and lock payload. Sources beside each check.</summary>
public sealed class TagMemoryTests
{
    // C66: TDS 2.3, section 15.1.1 (read) applied to the rows of annex E.3.
    [Theory]
    [InlineData("C16", "3000")]
    [InlineData("C17", "6800")]
    [InlineData("C13", "5800")]
    [InlineData("C03", "6800")]
    [InlineData("C33", "5000")]
    [InlineData("C18", "3000")]
    [InlineData("C04", "3800")]
    public void PcWord_OfAnEncodedEpc_HoldsItsWords(string id, string pc)
    {
        var hex = EpcVectors.All.Single(v => v.Id == id).Hex;
        var decoded = Assert.IsType<DecodedEpc>(EpcDecoder.Decode(EpcVectorTests.Bytes(hex), 4 * hex.Length));

        Assert.Equal(pc, Assert.IsType<EncodedEpc>(decoded.Scheme.Encode(decoded.Content)).Pc.ToString());
    }

    // C67: a published reader frame (secondary); bit places of TDS 2.3, section 9.3 (read).
    [Fact]
    public void PcWord_3400_IsSixWordsWithUserMemory()
    {
        Assert.True(PcWord.TryParse("3400", out var pc));

        Assert.Equal((6, 96, true, false, false), (pc.EpcWords, pc.EpcBits, pc.HasUserMemory, pc.HasXpc, pc.IsIso));
        Assert.Equal((true, true, 0xA1, 31), (new PcWord(0xFBA1).HasXpc, new PcWord(0xFBA1).IsIso, new PcWord(0xFBA1).Afi, new PcWord(0xFBA1).EpcWords));
        Assert.False(PcWord.TryParse("340", out _));
        Assert.False(PcWord.TryParse("34G0", out _));
        Assert.Throws<ArgumentOutOfRangeException>(() => PcWord.ForBits(497));
    }

    // C68: CRC catalogue, CRC-16/GENIBUS: check D64E (read). C69: a published reader frame; its page prints 4A78, but only 3A76 agrees with the
    // checksum of that frame. C71: derived with the same polynomial outside the project.
    [Theory]
    [InlineData("313233343536373839", 0xD64E)]
    [InlineData("340030751FEB705C5904E3D50D70", 0x3A76)]
    [InlineData("6C003876451FD59B2C2BF10000000000000000000000000000000000", 0xEB9F)]
    public void Crc16_OfPublishedBytes_IsThePublishedOne(string hex, int crc) => Assert.Equal(crc, Crc16.Of(Convert.FromHexString(hex)));

    [Fact]
    public void Crc16_BehindItsData_LeavesTheResidue() =>
        Gen.Select(Gen.Byte.Array[0, 64], Gen.Int[1, 255]).Sample((data, damage) =>
        {
            var crc = Crc16.Of(data);
            byte[] frame = [.. data, (byte)(crc >> 8), (byte)crc];
            Assert.True(Crc16.IsRight(frame));
            frame[0] ^= (byte)damage;
            Assert.False(Crc16.IsRight(frame));
        });

    // C72: synthetic, from TDS 2.3, section 16.3.2 (read).
    [Fact]
    public void Tid_E2WithSerial_HasAllParts()
    {
        var tid = TagIdentifier.Read(Convert.FromHexString("E28AB12320000123456789AB"));

        Assert.Equal((AllocationClass.E2, true, false, false, 0x0AB, 0x123), (tid.AllocationClass, tid.HasXtid, tid.HasSecurity, tid.HasFiles, tid.MaskDesigner, tid.ModelNumber));
        Assert.Equal(("0123456789AB", "urn:epc:stid:x8AB.x123.x0123456789AB", true), (tid.Serial, tid.StidUri, tid.IsComplete));
        Assert.Equal(tid.StidUri, tid.ChipKey);
    }

    // C74: no extended TID, no serial, cut short, class E0; E3 layout from memory; and shorter still.
    [Theory]
    [InlineData("E20AB123", AllocationClass.E2, null, 0)]
    [InlineData("E28AB1230000", AllocationClass.E2, null, 0)]
    [InlineData("E28AB1232000012345", AllocationClass.E2, null, 24)]
    [InlineData("E28AB123", AllocationClass.E2, null, 16)]
    [InlineData("E28A", AllocationClass.E2, null, 16)]
    [InlineData("E004010203040506", AllocationClass.E0, "E004010203040506", 0)]
    [InlineData("E00401020304", AllocationClass.E0, null, 16)]
    [InlineData("E3040011010203040506", AllocationClass.E3, "E3040011010203040506", 0)]
    [InlineData("E104010203040506", AllocationClass.Other, null, 0)]
    [InlineData("", AllocationClass.None, null, 8)]
    public void Tid_OfEveryClass_SaysWhatIsMissing(string hex, AllocationClass allocationClass, string? chipKey, int missingBits)
    {
        var tid = TagIdentifier.Read(Convert.FromHexString(hex));

        Assert.Equal((allocationClass, chipKey, missingBits, hex), (tid.AllocationClass, tid.ChipKey, tid.MissingBits, tid.Hex));
        Assert.Null(tid.StidUri);
    }

    // C75: TDS 2.3, section 16.2 (read).
    [Theory]
    [InlineData(0x2000, 48, false, false, false)]
    [InlineData(0x3C00, 48, true, true, true)]
    [InlineData(0x0C00, 0, false, true, true)]
    [InlineData(0xE000, 144, false, false, false)]
    public void Xtid_Header_NamesItsSegments(int header, int serialBits, bool commands, bool write, bool user)
    {
        var xtid = new XtidHeader((ushort)header);

        Assert.Equal((serialBits, commands, write, user), (xtid.SerialBits, xtid.HasOptionalCommands, xtid.HasBlockWrite, xtid.HasUserMemory));
    }

    [Fact]
    public void Tid_AnyBytes_NeverFailsAndIsCompleteWithMore() =>
        Gen.Select(Gen.OneOf<byte>(0xE0, 0xE1, 0xE2, 0xE3, 0x00), Gen.Byte.Array[0, 70]).Sample((first, rest) =>
        {
            byte[] bytes = [first, .. rest];
            var tid = TagIdentifier.Read(bytes);
            Assert.Equal(tid.MissingBits == 0, tid.IsComplete);
            Assert.True(tid.ChipKey is null || tid.IsComplete);
            // More bits never make a complete TID another chip.
            if (tid.ChipKey is not null)
                Assert.Equal(tid.ChipKey, TagIdentifier.Read([.. bytes, 0xFF]).ChipKey);
        }, iter: 20_000);

    // C76: published examples (read) and, the last, derived from the bit places.
    [Fact]
    public void LockPayload_OfPublishedExamples_IsThePublishedOne()
    {
        Assert.Equal("0C020", LockPayload.Of(epc: LockAction.Lock).ToString());
        Assert.Equal("0C030", LockPayload.Of(epc: LockAction.PermanentLock).ToString());
        Assert.Equal("0C010", LockPayload.Of(epc: LockAction.PermanentUnlock).ToString());
        Assert.Equal("FC2A0", LockPayload.Of(LockAction.Lock, LockAction.Lock, LockAction.Lock).ToString());
        Assert.Equal("00000", LockPayload.Of().ToString());
    }
}
