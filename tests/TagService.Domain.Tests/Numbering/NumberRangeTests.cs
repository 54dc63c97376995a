using CsCheck;
using TagService.Domain.Identity;
using TagService.Domain.Identity.Schemes;
using TagService.Domain.Numbering;

namespace TagService.Domain.Tests.Numbering;

public sealed class NumberRangeTests
{
    // The slow way: all identities of both as keys.
    [Fact]
    public void SharedWith_AnyTwoRanges_AgreesWithCountingTheirIdentities()
    {
        var (shared, apart) = (0, 0);
        NumberingGens.Pair.Sample(
            pair =>
            {
                var (one, other) = pair;
                var both = Keys(one).Intersect(Keys(other)).ToList();
                var found = one.SharedWith(other);
                Assert.Equal(both.Count > 0, found is not null);
                Assert.Equal(found is null, other.SharedWith(one) is null);
                if (found is null)
                {
                    Interlocked.Increment(ref apart);
                    return;
                }

                Interlocked.Increment(ref shared);
                Assert.Contains(Key(one.Rule, found), both);
            },
            iter: 10_000);
        // Both cases must have come up, often.
        Assert.True(shared > 1_000 && apart > 1_000, $"{shared} shared, {apart} apart");
    }

    [Fact]
    public void SharedWith_SchemesOfOneKey_MeetBecauseTheIdentityIsOne()
    {
        var bits96 = new NumberRange(new() { Scheme = EpcSchemes.Giai96, CompanyPrefix = "9521141" }, 1, 100);
        var plus = new NumberRange(new() { Scheme = EpcSchemes.GiaiPlus, CompanyPrefix = "9521141" }, 100, 200);
        Assert.Equal("100", bits96.SharedWith(plus));
        Assert.Null(bits96.SharedWith(plus with { First = 101 }));
        Assert.Equal("10", bits96.SharedWith(plus with { Rule = new() { Scheme = EpcSchemes.GiaiPlus, CompanyPrefix = "9521141", Leading = "1", Digits = 1 }, First = 0, Last = 9 }));
    }

    private static HashSet<IdentityKey> Keys(NumberRange range)
    {
        var keys = new HashSet<IdentityKey>();
        for (var number = range.First; number <= range.Last; number++)
        {
            if (range.Rule.Digits is not { } digits || number < Math.Pow(10, digits))
                keys.Add(Key(range.Rule, range.Rule.SerialOf(number)));
        }

        return keys;
    }

    // Whether the rule's own scheme takes it does not matter: another scheme of the key may.
    private static IdentityKey Key(NumberingRule rule, string serial) => ((Domain.Identity.Text.IdentityRead)(rule.Scheme.Kind switch
    {
        IdentityKind.Grai => Gs1Keys.Grai(rule.CompanyPrefix, rule.ClassReference, serial),
        IdentityKind.Sgtin => Gs1Keys.Sgtin(rule.CompanyPrefix, rule.ClassReference, serial),
        _ => Gs1Keys.Giai(rule.CompanyPrefix, serial),
    })).Key;
}
