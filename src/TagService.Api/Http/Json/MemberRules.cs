using System.ComponentModel.DataAnnotations;
using System.Globalization;
using System.Reflection;
using System.Text.RegularExpressions;

namespace TagService.Api.Http.Json;

/// <summary>What the validation attributes of one member ask for, read once.</summary>
internal sealed record MemberRules
{
    public static MemberRules None { get; } = new();

    /// <summary>Closed range of a number; infinite ends mean "any finite number".</summary>
    public double Min { get; private init; } = double.NegativeInfinity;

    public double Max { get; private init; } = double.PositiveInfinity;

    /// <summary>Most characters of a text, or most items of a list or map.</summary>
    public int MaxLength { get; private init; } = int.MaxValue;

    public int MinLength { get; private init; }

    /// <summary>The only texts accepted, in declared order; null means any.</summary>
    public IReadOnlyList<string>? Texts { get; private init; }

    public Regex? Pattern { get; private init; }

    public bool HasRange => Min > double.NegativeInfinity || Max < double.PositiveInfinity;

    /// <summary>True for numbers within the range; false for NaN and infinities.</summary>
    public bool NumberFits(double value) => value >= Min && value <= Max && double.IsFinite(value);

    public bool LengthFits(int length) => length >= MinLength && length <= MaxLength;

    public bool TextFits(string text) =>
        LengthFits(text.Length) && (Texts is null || Texts.Contains(text)) && (Pattern is null || Pattern.IsMatch(text));

    /// <exception cref="NotSupportedException">An attribute that nothing here checks: better no start than no check.</exception>
    public static MemberRules Of(ICustomAttributeProvider? member)
    {
        var rules = None;
        foreach (ValidationAttribute attribute in member?.GetCustomAttributes(typeof(ValidationAttribute), inherit: true) ?? [])
        {
            rules = attribute switch
            {
                RangeAttribute { MinimumIsExclusive: false, MaximumIsExclusive: false } range => rules with { Min = Number(range.Minimum), Max = Number(range.Maximum) },
                MaxLengthAttribute length => rules with { MaxLength = length.Length },
                MinLengthAttribute length => rules with { MinLength = length.Length },
                AllowedValuesAttribute allowed => rules with { Texts = [.. allowed.Values.OfType<string>()] },
                RegularExpressionAttribute regex => rules with { Pattern = Whole(regex.Pattern) },
                RequiredAttribute => rules,
                _ => throw new NotSupportedException($"{attribute.GetType().Name} on {member} is not checked by JsonBody."),
            };
        }

        return rules;
    }

    private static double Number(object bound) => Convert.ToDouble(bound, CultureInfo.InvariantCulture);

    // Non-backtracking: time linear in the text, whatever somebody sends.
    private static Regex Whole(string pattern) =>
        new($"^(?:{pattern})\\z", RegexOptions.CultureInvariant | RegexOptions.NonBacktracking);
}
