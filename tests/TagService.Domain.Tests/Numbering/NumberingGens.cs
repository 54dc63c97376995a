using CsCheck;
using TagService.Domain.Identity;
using TagService.Domain.Numbering;

namespace TagService.Domain.Tests.Numbering;

/// <summary>Rules of all schemes, most of them usable; one company prefix begins with another, as prefixes of different owners never do.</summary>
internal static class NumberingGens
{
    // 9521141 is the prefix of the examples of the GS1 EPC Tag Data Standard; the others are cut from and added to it.
    private static readonly string[] Prefixes = ["952114", "9521141", "95211412"];

    public static Gen<NumberingRule> Rule { get; } =
        from scheme in Of([.. NumberingRule.Schemes])
        from prefix in Of(Prefixes)
        from classDigit in Gen.Int[0, 1]
        from leading in Of("", "", "1", "12", "0", "A", "A1", "00", "11")
        from digits in Of<int?>(null, null, 1, 2, 3)
        select new NumberingRule
        {
            Scheme = scheme, CompanyPrefix = prefix, Leading = leading, Digits = digits,
            ClassReference = scheme.Kind switch
            {
                IdentityKind.Grai => $"{classDigit}".PadLeft(12 - prefix.Length, '2'),
                IdentityKind.Sgtin => $"{classDigit}".PadRight(13 - prefix.Length, '2'),
                _ => "",
            },
        };

    public static Gen<NumberRange> Range { get; } = Gen.Select(Rule, Gen.Int[0, 150], Gen.Int[-1, 150], (rule, first, more) => new NumberRange(rule, first, first + more));

    /// <summary>Two ranges that have much in common, so that about as many meet as do not.</summary>
    public static Gen<(NumberRange One, NumberRange Other)> Pair { get; } =
        from one in Range
        from other in Range
        from alike in Gen.Bool.Array[3]
        select (one, other with
        {
            Rule = (alike[0] ? one.Rule with { Leading = other.Rule.Leading, Digits = other.Rule.Digits } : other.Rule) with
            {
                Leading = alike[1] ? one.Rule.Leading : other.Rule.Leading, Digits = alike[2] ? one.Rule.Digits : other.Rule.Digits,
            },
        });

    private static Gen<T> Of<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);
}
