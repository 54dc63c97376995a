using System.Globalization;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Identity;
using TagService.Domain.Numbering;
using TagService.Storage.Tables;

namespace TagService.Api.Features.NumberingRules;

/// <summary>What makes a readable numbering rule unusable, or would let a number be given twice.</summary>
internal static class NumberingRuleProblems
{
    public static ApiProblem NotFound() => ApiProblem.NotFound("No numbering rule has this id; /v1/numbering-rules lists them all.");

    /// <summary>Members that belong to other schemes.</summary>
    public static ApiProblem? OfMembers(NumberingRuleRequest wanted)
    {
        var kind = wanted.ToRule().Scheme.Kind;
        if (wanted.AssetType is { Length: > 0 } type && kind != IdentityKind.Grai)
            return Misplaced("assetType", type, "grai-96, grai-170, grai+", wanted.Scheme);
        return wanted.ItemReference is { } reference && kind != IdentityKind.Sgtin
            ? Misplaced("itemReference", reference, "sgtin-96, sgtin-198, sgtin+", wanted.Scheme)
            : null;
    }

    /// <summary>Numbers that do not fit what was handed out, each other or the scheme; else the range the rule then has.</summary>
    /// <param name="wanted">The request.</param>
    /// <param name="before">The rule as it is; null when it is new.</param>
    /// <param name="next">The number that will come next.</param>
    public static (NumberRange? Range, ApiProblem? Problem) OfNumbers(NumberingRuleRequest wanted, NumberingRuleRow? before, long next)
    {
        var rule = wanted.ToRule();
        var handedOut = before?.HandedOutThrough;
        if (handedOut is { } through && OfHandedOut(wanted, before!, rule, next, through) is { } taken)
            return (null, taken);
        if (handedOut is null && wanted.LastNumber < next)
        {
            return (null, ApiProblem.Contradictory(
                "lastNumber is below nextNumber, so there would be nothing to hand out.",
                new ProblemError("#/nextNumber", Text(next), "Above lastNumber."), new ProblemError("#/lastNumber", Text(wanted.LastNumber.Value), "Below nextNumber.", $"{Text(next)} or more")));
        }

        // What was handed out fits, or did: a rule that is stopped or at its end has no next number to look at.
        var lowest = handedOut ?? next;
        if (rule.Encode(lowest) is EpcRefused refused)
            return (null, OfScheme(refused.Reason, wanted, lowest));
        var last = wanted.LastNumber ?? rule.LargestFrom(lowest);
        if (rule.Encode(last) is EpcRefused tooHigh)
        {
            var largest = Text(rule.LargestFrom(lowest));
            return (null, ApiProblem.Contradictory(
                $"The last number does not go into {wanted.Scheme} with these members: {tooHigh.Reason.Detail}",
                new ProblemError("#/lastNumber", Text(last), "Too high for the scheme, the leading characters and the digits.", $"at most {largest}"),
                new ProblemError("#/scheme", wanted.Scheme, "Holds no number so high.")));
        }

        return wanted is { NextNumber: { } asked, LastNumber: null } && asked > last
            ? (null, ApiProblem.Contradictory(
                $"The next number does not go into {wanted.Scheme} with these members.",
                new ProblemError("#/nextNumber", Text(asked), "Too high for the scheme, the leading characters and the digits.", $"at most {Text(last)}"),
                new ProblemError("#/scheme", wanted.Scheme, "Holds no number so high.")))
            : (new(rule, handedOut is null ? next : before!.FirstNumber, last), null);
    }

    /// <summary>Another rule that would hand out the same identity.</summary>
    public static ApiProblem? OfOthers(NumberRange range, IEnumerable<NumberingRuleRow> others)
    {
        foreach (var other in others)
        {
            if (range.SharedWith(other.Range()) is { } shared)
            {
                return new(
                    ProblemTypes.Conflict,
                    $"The numbering rule {JsonText.Clip(other.Id)} would hand out an identity that this one would hand out too: {shared} under company prefix {range.Rule.CompanyPrefix}. "
                    + "Give them ranges of numbers or leading characters that do not meet.",
                    [new("#/lastNumber", Text(range.Last), $"From {Text(range.First)} to here the rule meets {JsonText.Clip(other.Id)}.", "numbers that no other rule of the same kind of identity and prefix hands out")]);
            }
        }

        return null;
    }

    /// <summary>A rule that must stay, so that nobody can hand out its numbers again.</summary>
    public static ApiProblem? OfUse(NumberingRuleRow row) => row.HandedOutThrough is { } through
        ? new(
            ProblemTypes.Conflict,
            $"Numbers through {Text(through)} were handed out, and a rule forgotten could hand them out again. Set lastNumber to {Text(through)} to stop it.")
        : null;

    private static ApiProblem? OfHandedOut(NumberingRuleRequest wanted, NumberingRuleRow before, NumberingRule rule, long next, long through)
    {
        if (next <= through)
        {
            return new(
                ProblemTypes.Conflict, $"Numbers through {Text(through)} were handed out; with a lower nextNumber they would be given twice.",
                [new("#/nextNumber", Text(next), "Handed out already.", $"{Text(through + 1)} or more, or left out")]);
        }

        if (wanted.LastNumber < through)
        {
            return new(
                ProblemTypes.Conflict, $"Numbers through {Text(through)} were handed out; a lower lastNumber would forget them.",
                [new("#/lastNumber", Text(wanted.LastNumber.Value), "Below what was handed out.", $"{Text(through)} (stops the rule) or more")]);
        }

        return rule.NumbersLike(before.ToRule()) ? null : new(
            ProblemTypes.Conflict,
            $"Numbers through {Text(through)} were handed out, so kind of scheme, companyPrefix, assetType or itemReference, leading and digits stay as they are: otherwise "
            + "their identities could be given again. Set up a rule of its own for other identities.");
    }

    private static ApiProblem OfScheme(Refusal reason, NumberingRuleRequest wanted, long number)
    {
        // What a reference or serial is made of: leading characters and number.
        var member = reason.Field switch
        {
            "companyPrefix" or "filter" or "scheme" or "assetType" or "itemReference" or "digits" => reason.Field,
            _ => wanted.Leading is { Length: > 0 } ? "leading" : wanted.Digits is not null ? "digits" : "nextNumber",
        };
        return ApiProblem.Contradictory(
            $"The number {Text(number)} makes no identity of {wanted.Scheme}: {reason.Detail}",
            new ProblemError($"#/{member}", reason.Value is null ? null : JsonText.Clip(reason.Value), reason.Detail, reason.Accepted),
            new ProblemError("#/scheme", wanted.Scheme, "Does not hold it."));
    }

    private static ApiProblem Misplaced(string member, string value, string schemes, string scheme) => ApiProblem.Contradictory(
        $"{member} belongs to {schemes}, and scheme is {scheme}.",
        new ProblemError($"#/{member}", JsonText.Clip(value), "Belongs to other schemes.", $"left out, or one of {schemes}"), new ProblemError("#/scheme", scheme, $"Has no {member}."));

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
