using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The comparisons that rules share. None allocates; each is monotone in both values.</summary>
internal static class Compare
{
    /// <summary>Kelvin below a temperature limit within which there is little to spare: planning value, common practice.</summary>
    public const double TemperatureMarginK = 5;

    private static readonly string[] s_levels = ["none", "low", "medium", "high"];

    /// <summary>The word of a level.</summary>
    public static string WordOf(Level level) => s_levels[(int)level];

    /// <summary>Needed must not exceed the limit; within <paramref name="margin"/> below it is marginal.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static RuleFinding NotAbove(double needed, double limit, double margin, string unit) =>
        new(Judge(limit - needed, margin), RuleValue.Of(needed, unit), RuleValue.Of(limit, unit));

    /// <summary>Needed must not fall below the limit; within <paramref name="margin"/> above it is marginal.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static RuleFinding NotBelow(double needed, double limit, double margin, string unit) =>
        new(Judge(needed - limit, margin), RuleValue.Of(needed, unit), RuleValue.Of(limit, unit));

    /// <summary>A dose (years, cycles, joules): up to the limit holds, up to twice the limit is marginal.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static RuleFinding Dose(double needed, double limit, string unit) =>
        new(
            needed <= limit ? RuleVerdict.Pass : needed <= 2 * limit ? RuleVerdict.Marginal : RuleVerdict.Fail,
            RuleValue.Of(needed, unit),
            RuleValue.Of(limit, unit));

    /// <summary>Coarse degrees: one step short is marginal, more fails.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static RuleFinding Levels(Level needed, Level offered) =>
        new(Steps((int)needed - (int)offered), RuleValue.Of(WordOf(needed)), RuleValue.Of(WordOf(offered)));

    /// <summary>Steps short: none holds, one is marginal, more fail.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static RuleVerdict Steps(int missing) =>
        missing <= 0 ? RuleVerdict.Pass : missing == 1 ? RuleVerdict.Marginal : RuleVerdict.Fail;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static RuleVerdict Judge(double spare, double margin) =>
        spare < 0 ? RuleVerdict.Fail : spare < margin ? RuleVerdict.Marginal : RuleVerdict.Pass;
}
