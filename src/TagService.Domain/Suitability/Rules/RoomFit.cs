using System.Runtime.CompilerServices;
namespace TagService.Domain.Suitability.Rules;

/// <summary>Room against what tag and fixing take.</summary>
internal static class RoomFit
{
    /// <summary>Holds with the margin; marginal when only the tag itself fits.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static RuleFinding Judge(double freeMm, double takenMm, double marginMm) =>
        new(
            takenMm <= freeMm ? RuleVerdict.Pass
            : takenMm > 0 && takenMm - marginMm <= freeMm ? RuleVerdict.Marginal
            : RuleVerdict.Fail,
            RuleValue.Of(freeMm, "mm"),
            RuleValue.Of(takenMm, "mm"));
}
