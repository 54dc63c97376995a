namespace TagService.Domain.Identity.Schemes;

/// <summary>The registry of EPC schemes: one new file (or row of a family) and one line here, and the shared tests cover it.</summary>
public static class EpcSchemes
{
    /// <summary>GIAI-96: individual assets, numeric reference.</summary>
    public static EpcScheme Giai96 { get; } = new Giai96Scheme();

    /// <summary>GIAI-202: individual assets, reference of up to 24 characters.</summary>
    public static EpcScheme Giai202 { get; } = new Giai202Scheme();

    /// <summary>GIAI+: individual assets, no company prefix length.</summary>
    public static EpcScheme GiaiPlus { get; } = new PlusScheme("GIAI+", 0xFA, IdentityKind.Giai);

    /// <summary>GRAI-96: returnable assets, numeric serial.</summary>
    public static EpcScheme Grai96 { get; } = Partitioned("GRAI-96", 0x33, IdentityKind.Grai, 44, SerialCoding.Integer, 38);

    /// <summary>GRAI-170: returnable assets, serial of up to 16 characters.</summary>
    public static EpcScheme Grai170 { get; } = Partitioned("GRAI-170", 0x37, IdentityKind.Grai, 44, SerialCoding.Characters, 112);

    /// <summary>GRAI+: returnable assets, no company prefix length.</summary>
    public static EpcScheme GraiPlus { get; } = new PlusScheme("GRAI+", 0xF1, IdentityKind.Grai);

    /// <summary>SGTIN-96: trade items, numeric serial.</summary>
    public static EpcScheme Sgtin96 { get; } = Partitioned("SGTIN-96", 0x30, IdentityKind.Sgtin, 44, SerialCoding.Integer, 38);

    /// <summary>SGTIN-198: trade items, serial of up to 20 characters.</summary>
    public static EpcScheme Sgtin198 { get; } = Partitioned("SGTIN-198", 0x36, IdentityKind.Sgtin, 44, SerialCoding.Characters, 140);

    /// <summary>SGTIN+: trade items, no company prefix length.</summary>
    public static EpcScheme SgtinPlus { get; } = new PlusScheme("SGTIN+", 0xF7, IdentityKind.Sgtin);

    /// <summary>All schemes of TDS 2.3, table 14-1. Of two that need the same bits for an identity the earlier is preferred.</summary>
    public static IReadOnlyList<EpcScheme> All { get; } =
    [
        Giai96, Giai202, GiaiPlus, new PlusScheme("GIAI++", 0xEE, IdentityKind.Giai),
        Grai96, Grai170, GraiPlus, new PlusScheme("GRAI++", 0xEB, IdentityKind.Grai),
        Sgtin96, Sgtin198, SgtinPlus, new PlusScheme("SGTIN++", 0xFD, IdentityKind.Sgtin),
        new PlusScheme("DSGTIN+", 0xFB, IdentityKind.Sgtin, dated: true), new PlusScheme("DSGTIN++", 0xFC, IdentityKind.Sgtin, dated: true),
        Partitioned("SSCC-96", 0x31, IdentityKind.Sscc, 58, SerialCoding.Zeros, 24),
        new PlusScheme("SSCC+", 0xF9, IdentityKind.Sscc), new PlusScheme("SSCC++", 0xEF, IdentityKind.Sscc),
        Partitioned("SGLN-96", 0x32, IdentityKind.Sgln, 41, SerialCoding.Integer, 41),
        Partitioned("SGLN-195", 0x39, IdentityKind.Sgln, 41, SerialCoding.Characters, 140),
        new PlusScheme("SGLN+", 0xF2, IdentityKind.Sgln), new PlusScheme("SGLN++", 0xE9, IdentityKind.Sgln),
        Partitioned("GDTI-96", 0x2C, IdentityKind.Gdti, 41, SerialCoding.Integer, 41),
        Partitioned("GDTI-113", 0x3A, IdentityKind.Gdti, 41, SerialCoding.NumericString, 58),
        Partitioned("GDTI-174", 0x3E, IdentityKind.Gdti, 41, SerialCoding.Characters, 119),
        new PlusScheme("GDTI+", 0xF6, IdentityKind.Gdti), new PlusScheme("GDTI++", 0xEA, IdentityKind.Gdti),
        Partitioned("GSRN-96", 0x2D, IdentityKind.Gsrn, 58, SerialCoding.Zeros, 24),
        new PlusScheme("GSRN+", 0xF4, IdentityKind.Gsrn), new PlusScheme("GSRN++", 0xE7, IdentityKind.Gsrn),
        Partitioned("GSRNP-96", 0x2E, IdentityKind.Gsrnp, 58, SerialCoding.Zeros, 24),
        new PlusScheme("GSRNP+", 0xF5, IdentityKind.Gsrnp), new PlusScheme("GSRNP++", 0xE8, IdentityKind.Gsrnp),
        new Cpi96Scheme(), new CpiVarScheme(),
        new PlusScheme("CPI+", 0xF0, IdentityKind.Cpi), new PlusScheme("CPI++", 0xE6, IdentityKind.Cpi),
        Partitioned("SGCN-96", 0x3F, IdentityKind.Sgcn, 41, SerialCoding.NumericString, 41),
        new PlusScheme("SGCN+", 0xF8, IdentityKind.Sgcn), new PlusScheme("SGCN++", 0xEC, IdentityKind.Sgcn),
        Partitioned("ITIP-110", 0x40, IdentityKind.Itip, 44, SerialCoding.Integer, 38),
        Partitioned("ITIP-212", 0x41, IdentityKind.Itip, 44, SerialCoding.Characters, 140),
        new PlusScheme("ITIP+", 0xF3, IdentityKind.Itip), new PlusScheme("ITIP++", 0xED, IdentityKind.Itip),
        new Gid96Scheme(), new Usdod96Scheme(), new AdiVarScheme(),
    ];

    private static readonly EpcScheme?[] ByHeader = Index();

    /// <summary>The scheme of a header, or null.</summary>
    /// <param name="header">First eight bits of the EPC field.</param>
    public static EpcScheme? Find(byte header) => ByHeader[header];

    /// <summary>The scheme of a name such as <c>GIAI-96</c>, without regard to case, or null.</summary>
    /// <param name="name">Name in the standard.</param>
    public static EpcScheme? Find(string name) => All.FirstOrDefault(s => s.Name.Equals(name, StringComparison.OrdinalIgnoreCase));

    /// <summary>
    /// The scheme that needs the fewest words of EPC memory for an identity, without date or host name. The answer to "does this
    /// identity fit the memory of that tag class".
    /// </summary>
    /// <param name="key">The identity.</param>
    /// <param name="companyPrefixLength">Digits of the company prefix if known; else only schemes that do not hold it are tried.</param>
    /// <returns>Scheme and bits as of <see cref="EpcScheme.RequiredBits"/>; null when no scheme holds it.</returns>
    public static (EpcScheme Scheme, int Bits)? SmallestFor(IdentityKey key, int companyPrefixLength = 0)
    {
        (EpcScheme Scheme, int Bits)? smallest = null;
        foreach (var scheme in All.Where(s => s.Kind == key.Kind && !s.HoldsDate && !s.HoldsHostName))
        {
            if (scheme.RequiredBits(key, companyPrefixLength) is { } bits && (smallest is null || Words(bits) < Words(smallest.Value.Bits)))
                smallest = (scheme, bits);
        }

        return smallest;
    }

    private static int Words(int bits) => (bits + 15) / 16;

    private static PartitionedScheme Partitioned(
        string name, byte header, IdentityKind kind, int partitionedBits, SerialCoding serial, int serialBits) =>
        new(name, header, kind, partitionedBits, new(serial, serialBits));

    private static EpcScheme?[] Index()
    {
        var index = new EpcScheme?[256];
        foreach (var scheme in All)
        {
            index[scheme.Header] = index[scheme.Header] is null
                ? scheme
                : throw new InvalidOperationException($"{scheme.Name} has a header that another scheme has.");
        }

        return index;
    }
}
