using System.Collections.Immutable;

namespace TagService.Domain.Suitability;

/// <summary>
/// The protection that a set of IP codes gives together (IEC 60529). Up to water level 6 a level implies the lower
/// ones; 7, 8 and 9 do not imply the jets of 5 and 6, and 9 does not imply immersion, so IP66 and IP68 are two facts.
/// </summary>
/// <remarks>
/// Source: IEC 60529 (1989 with amendments), second numeral, read in secondary tables. That 8 implies 7, and that
/// 7, 8 and 9 imply drip, spray and splash (1 to 4), is taken as common practice.
/// </remarks>
public readonly record struct IpSet
{
    private const int ImmersionMask = 0b01_1000_0000;
    private static readonly ImmutableArray<string> s_names = MakeNames();
    private readonly byte _solids;
    private readonly ushort _water;

    private IpSet(int solids, int water)
    {
        _solids = (byte)solids;
        _water = (ushort)water;
    }

    /// <summary>Protection against solids, 0 to 6.</summary>
    public int Solids => _solids;

    /// <summary>The codes as people write them, for example <c>IP66/IP68</c>; <c>no IP code</c> for none.</summary>
    public string Name => _water == 0 ? "no IP code" : s_names[Index(_solids, _water)];

    /// <summary>The set that codes give together. Codes that do not read give nothing.</summary>
    /// <param name="codes">For example <c>IP66</c>, <c>68</c>, <c>IPX7</c>, <c>IP69K</c>.</param>
    public static IpSet Of(IReadOnlyList<string> codes)
    {
        int solids = 0, water = 0;
        for (var i = 0; i < codes.Count; i++)
        {
            if (!IpCode.TryParse(codes[i], out var code))
                continue;
            solids = Math.Max(solids, code.Solids);
            water |= Implied(code.Water);
        }

        return new(solids, water);
    }

    /// <summary>Are all these water levels held?</summary>
    /// <param name="levels">One bit a level.</param>
    internal bool HasAllWater(int levels) => (levels & ~(_water | 1)) == 0;

    /// <summary>Is this water level held?</summary>
    /// <param name="level">0 to 9.</param>
    public bool HasWater(int level) => (_water & (1 << level)) != 0 || level == 0;

    /// <summary>The water levels that one level implies, as bits.</summary>
    private static int Implied(int level) => level switch
    {
        <= 6 => (1 << (level + 1)) - 1,
        7 => 0b00_1001_1111,
        8 => 0b01_1001_1111,
        _ => 0b10_0001_1111,
    };

    private static int Index(int solids, int water)
    {
        var low = (water & 0b100_0000) != 0 ? 6 : (water & 0b10_0000) != 0 ? 5 : HighestUpTo4(water);
        var immersion = (water & ImmersionMask) switch { 0 => 0, 0b00_1000_0000 => 1, _ => 2 };
        return (((solids * 7) + low) * 3 + immersion) * 2 + ((water & 0b10_0000_0000) != 0 ? 1 : 0);
    }

    private static int HighestUpTo4(int water)
    {
        for (var level = 4; level > 0; level--)
        {
            if ((water & (1 << level)) != 0)
                return level;
        }

        return 0;
    }

    private static ImmutableArray<string> MakeNames()
    {
        var names = ImmutableArray.CreateBuilder<string>(7 * 7 * 3 * 2);
        for (var solids = 0; solids <= 6; solids++)
        {
            for (var low = 0; low <= 6; low++)
            {
                for (var immersion = 0; immersion <= 2; immersion++)
                {
                    for (var jet = 0; jet <= 1; jet++)
                        names.Add(MakeName(solids, low, immersion, jet));
                }
            }
        }

        return names.MoveToImmutable();
    }

    private static string MakeName(int solids, int low, int immersion, int jet)
    {
        // Levels 1 to 4 come with 7, 8 and 9 anyway: only 5 and 6 are worth a name of their own then.
        var parts = new List<string>(3);
        if (low > 4 || (immersion == 0 && jet == 0))
            parts.Add(IpCode.NameOf(solids, low));
        if (immersion > 0)
            parts.Add(IpCode.NameOf(solids, 6 + immersion));
        if (jet == 1)
            parts.Add(IpCode.NameOf(solids, 9));
        return string.Join('/', parts);
    }
}
