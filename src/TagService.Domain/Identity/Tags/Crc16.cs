namespace TagService.Domain.Identity.Tags;

/// <summary>The CRC-16 that a tag stores before its PC word and EPC.</summary>
public static class Crc16
{
    /// <summary>What the register holds, before inversion, after data followed by their CRC.</summary>
    public const ushort Residue = 0x1D0F;

    private static readonly ushort[] Table = Build();

    /// <summary>
    /// Polynomial x^16 + x^12 + x^5 + 1 (1021h), preset FFFFh, most significant bit first, result inverted; over PC word and EPC. Exact.
    /// Tested with the catalogue's check value and a published reader frame. Source: ISO/IEC 18000-63 (secondary); CRC catalogue,
    /// CRC-16/GENIBUS (read).
    /// </summary>
    /// <param name="data">Bytes, the PC word first.</param>
    /// <returns>Sixteen bits.</returns>
    public static ushort Of(ReadOnlySpan<byte> data) => unchecked((ushort)~Register(data));

    /// <summary>Is the CRC behind the data right? The register must then hold <see cref="Residue"/>.</summary>
    /// <param name="dataAndCrc">Bytes, the CRC last.</param>
    public static bool IsRight(ReadOnlySpan<byte> dataAndCrc) => Register(dataAndCrc) == Residue;

    private static ushort Register(ReadOnlySpan<byte> data)
    {
        ushort crc = 0xFFFF;
        foreach (var b in data)
            crc = unchecked((ushort)((crc << 8) ^ Table[(crc >> 8) ^ b]));
        return crc;
    }

    private static ushort[] Build()
    {
        var table = new ushort[256];
        for (var i = 0; i < table.Length; i++)
        {
            var crc = i << 8;
            for (var bit = 0; bit < 8; bit++)
                crc = (crc << 1) ^ ((crc & 0x8000) != 0 ? 0x1021 : 0);
            table[i] = unchecked((ushort)crc);
        }

        return table;
    }
}
