using System.Numerics;

namespace TagService.Domain.Suitability.Rules;

/// <summary>
/// The verdicts of the rules of one scope on one tag class, fixing or pair, two bits a rule: counting them is counting bits, and a rule is
/// judged anew by overwriting its own two.
/// </summary>
internal readonly record struct VerdictSet(ulong Bits)
{
    /// <summary>Rules that one set holds.</summary>
    public const int MostRules = 32;

    private const ulong MarginalBits = 0x5555_5555_5555_5555;
    private const ulong FailBits = MarginalBits << 1;

    /// <summary>Rules that do not hold.</summary>
    public int Fails => BitOperations.PopCount(Bits & FailBits);

    /// <summary>Rules that only just hold.</summary>
    public int Marginals => BitOperations.PopCount(Bits & MarginalBits);

    /// <summary>Does any rule not hold?</summary>
    public bool HasFail => (Bits & FailBits) != 0;

    /// <summary>The same, the rules at <paramref name="places"/> passed.</summary>
    public VerdictSet Without(ulong places) => new(Bits & ~(places * 3));
}
