namespace TagService.Domain.Identity.Schemes;

/// <summary>
/// Codes of <see cref="HostNameCode"/>: 7-bit codes as they are, 14-bit codes of page p (their first seven bits) as (p + 1) x 128 + code.
/// Source: TDS 2.3, tables 14-11 (one code), 14-12 to 14-15 (pages 0 to 3); read. Table 14-14 prints page 0 before .org.cn and .net.cn,
/// where table 14-12 has other entries; its heading and all its other rows say page 2, as here.
/// </summary>
internal static class HostSequences
{
    /// <summary>First sevens that announce seven more.</summary>
    public const int Pages = 4;

    /// <summary>Most characters one counted seven bits stand for (<c>.com.au</c> takes two).</summary>
    public const int LongestText = 4;

    private const string CountriesAcToLi =
        "ac ad ae af ag ai al am ao aq ar as at au aw ax az ba bb bd be bf bg bh bi bj bm bn bo bq br bs bt bw by bz ca cc cd cf cg ch ci ck "
        + "cl cm cn co cr cu cv cw cx cy cz de dj dk dm do dz ec ee eg eh er es et eu fi fj fk fm fo fr ga gd ge gf gg gh gi gl gm gn gp gq gr "
        + "gs gt gu gw gy hk hm hn hr ht hu id ie il im in io iq ir is it je jm jo jp ke kg kh ki km kn kp kr kw ky kz la lb lc li";

    private const string CountriesLkToZw =
        "lk lr ls lt lu lv ly ma mc md me mg mh mk ml mm mn mo mp mq mr ms mt mu mv mw mx my mz na nc ne nf ng ni nl no np nr nu nz om pa pe pf "
        + "pg ph pk pl pm pn pr ps pt pw py qa re ro rs ru rw sa sb sc sd se sg sh si sk sl sm sn sr ss st su sv sx sy sz tc td tf tg th tj tk "
        + "tl tm tn to tr tt tv tw tz ua ug us uy uz va vc ve vg vi vn vu wf ws ye yt za zm zw";

    private const string Compounds =
        "com.au net.au org.au co.at com.bd co.bd com.br net.br co.nz com.ng com.pk co.in com.in co.il co.jp co.za co.kr com.es com.lk co.th co.tt "
        + "com.tt com.tr biz.tr com.ua co.uk co.zm com.zm com.cn org.cn net.cn gov.cn";

    private const string Generic = "tech";

    private static readonly string?[] Texts = Build();

    private static readonly (string Text, int Code)[] Sequences =
        [.. Texts.Select((t, i) => (Text: t!, Code: i)).Where(s => s.Text is { Length: > 1 }).OrderByDescending(s => s.Text.Length)];

    /// <summary>What a code stands for; null when it is reserved.</summary>
    public static string? Text(int code) => Texts[code];

    /// <summary>
    /// The code that takes the most characters off the beginning. Endings count at the end only: <c>.co</c> is no part of <c>.company</c>.
    /// </summary>
    public static int Longest(ReadOnlySpan<char> text, out int length)
    {
        foreach (var (sequence, code) in Sequences)
        {
            if (text.StartsWith(sequence, StringComparison.Ordinal) && (sequence[0] != '.' || sequence.Length == text.Length))
            {
                length = sequence.Length;
                return code;
            }
        }

        length = 1;
        return text[0];
    }

    private static string?[] Build()
    {
        var texts = new string?[(Pages + 1) * 128];
        for (var c = '!'; c <= 'z'; c++)
            texts[c] = c == '#' || CharacterSet.Gs1.Allowed.Contains(c) ? c.ToString() : null;
        (int Code, string Text)[] seven =
        [
            (0x1E, "qr."), (0x1F, "www."), (0x20, "id."), (0x5B, ".com"), (0x5C, ".org"), (0x5D, ".net"), (0x5E, ".int"), (0x60, ".edu"),
            (0x7B, ".gov"), (0x7C, ".mil"), (0x7D, ".biz"), (0x7E, ".eco"), (0x7F, ".med"),
        ];
        foreach (var (code, text) in seven)
            texts[code] = text;
        string[] pages = [CountriesAcToLi, CountriesLkToZw, Compounds, Generic];
        for (var page = 0; page < pages.Length; page++)
        {
            var names = pages[page].Split(' ');
            for (var i = 0; i < names.Length; i++)
                texts[((page + 1) * 128) + i] = "." + names[i];
        }

        return texts;
    }
}
