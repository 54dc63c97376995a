using System.Globalization;
using TagService.Domain.Identity;
using TagService.Domain.Identity.Schemes;
using TagService.Domain.Identity.Text;

namespace TagService.Domain.Numbering;

/// <summary>
/// How numbers become identities: under a company prefix that GS1 licensed to the owner, in one scheme, with fixed leading
/// characters and padding. Pure; which number comes next is kept elsewhere.
/// </summary>
public sealed record NumberingRule
{
    /// <summary>Highest number a rule hands out: 2^53 - 1, the highest that every JSON reader keeps exactly (RFC 8259, section 6; read).</summary>
    public const long HighestNumber = 9_007_199_254_740_991;

    /// <summary>Most digits a number is padded to; <see cref="HighestNumber"/> has as many.</summary>
    public const int MaxDigits = 16;

    /// <summary>The schemes that rules can number in: those for assets, GS1 EPC Tag Data Standard 2.3, table 14-1 (read).</summary>
    public static IReadOnlyList<EpcScheme> Schemes { get; } =
    [
        EpcSchemes.Giai96, EpcSchemes.Giai202, EpcSchemes.GiaiPlus, EpcSchemes.Grai96, EpcSchemes.Grai170, EpcSchemes.GraiPlus,
        EpcSchemes.Sgtin96, EpcSchemes.Sgtin198, EpcSchemes.SgtinPlus,
    ];

    /// <summary>Scheme, one of <see cref="Schemes"/>.</summary>
    public required EpcScheme Scheme { get; init; }

    /// <summary>The owner's GS1 company prefix, 6 to 12 digits.</summary>
    public required string CompanyPrefix { get; init; }

    /// <summary>Filter value, 0 to 7; no part of the identity.</summary>
    public int Filter { get; init; }

    /// <summary>Asset type (GRAI), or indicator digit and item reference (SGTIN); empty for a GIAI.</summary>
    public string ClassReference { get; init; } = "";

    /// <summary>Characters before each number, may be empty.</summary>
    public string Leading { get; init; } = "";

    /// <summary>Digits each number is padded to with zeros, 1 to 16; null: not padded.</summary>
    public int? Digits { get; init; }

    /// <summary>What follows prefix and class for a number: leading characters and the number. No unit; tested in NumberingRuleTests.</summary>
    /// <param name="number">0 to <see cref="HighestNumber"/>.</param>
    public string SerialOf(long number) =>
        Leading + number.ToString(Digits is { } digits ? $"D{digits}" : "D", CultureInfo.InvariantCulture);

    /// <summary>The bits that carry a number's identity, or which field of the rule does not go into the scheme. Tested in NumberingRuleTests.</summary>
    /// <param name="number">0 to <see cref="HighestNumber"/>.</param>
    public EpcEncoding Encode(long number)
    {
        if (number is < 0 or > HighestNumber)
            throw new ArgumentOutOfRangeException(nameof(number), number, $"number is {number}; accepted: 0 to {HighestNumber}.");
        var serial = SerialOf(number);
        if (Digits is { } digits && serial.Length > Leading.Length + digits)
            return new EpcRefused(new("digits", Text(digits), $"{number} has more digits than numbers are padded to.", $"{serial.Length - Leading.Length} to {MaxDigits}"));
        var reading = Scheme.Kind switch
        {
            IdentityKind.Grai => Gs1Keys.Grai(CompanyPrefix, ClassReference, serial),
            IdentityKind.Sgtin => Gs1Keys.Sgtin(CompanyPrefix, ClassReference, serial),
            _ => Gs1Keys.Giai(CompanyPrefix, serial),
        };
        return reading is IdentityRead read
            ? Scheme.Encode(new(read.Key, Filter, Scheme.HoldsCompanyPrefix ? CompanyPrefix.Length : 0))
            : new EpcRefused(((IdentityRefused)reading).Reason);
    }

    /// <summary>
    /// The highest number, not below one that fits, whose identity goes into the scheme; found by halving, as no higher number
    /// fits where a lower one is too long. No unit; tested in NumberingRuleTests.
    /// </summary>
    /// <param name="from">A number whose identity goes into the scheme.</param>
    public long LargestFrom(long from)
    {
        var (fits, above) = (from, HighestNumber + 1);
        while (above - fits > 1)
        {
            var middle = fits + ((above - fits) / 2);
            if (Encode(middle) is EncodedEpc)
                fits = middle;
            else
                above = middle;
        }

        return fits;
    }

    /// <summary>Would identities of the two rules differ in anything but scheme, filter and the numbers themselves?</summary>
    /// <param name="other">Another rule.</param>
    public bool NumbersLike(NumberingRule other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Scheme.Kind == other.Scheme.Kind && CompanyPrefix == other.CompanyPrefix && ClassReference == other.ClassReference
            && Leading == other.Leading && Digits == other.Digits;
    }

    /// <summary>What stands before the number in the key, without check digits: two identities of a kind are one only if these texts with their numbers are.</summary>
    internal string KeyStart => Scheme.Kind == IdentityKind.Sgtin && ClassReference.Length > 0
        ? ClassReference[..1] + CompanyPrefix + ClassReference[1..] + Leading
        : CompanyPrefix + ClassReference + Leading;

    private static string Text(int value) => value.ToString(CultureInfo.InvariantCulture);
}
