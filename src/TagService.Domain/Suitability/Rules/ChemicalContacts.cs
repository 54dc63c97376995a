namespace TagService.Domain.Suitability.Rules;

/// <summary>The worst thing that an asset's chemicals do to one material.</summary>
internal static class ChemicalContacts
{
    private const string Unknown = "not in the compatibility table";

    /// <summary>The worst contact; a chemical or material outside the table counts as marginal.</summary>
    /// <param name="contacts">What the table says of the material.</param>
    /// <param name="chemicals">Ids of chemical families; of equally bad ones the first counts.</param>
    public static RuleFinding Worst(MaterialContacts contacts, IReadOnlyList<string> chemicals)
    {
        string? worst = null;
        ChemicalContact? contact = null;
        var verdict = RuleVerdict.Pass;
        for (var i = 0; i < chemicals.Count; i++)
        {
            var chemical = chemicals[i];
            var met = contacts.Of(chemical);
            var judged = met is null ? RuleVerdict.Marginal : (RuleVerdict)(int)met.Rating;
            if (judged > verdict)
                (worst, contact, verdict) = (chemical, met, judged);
        }

        return worst is null ? RuleFinding.Pass
            : contact is null ? new(verdict, RuleValue.Of(worst), RuleValue.Of(Unknown))
            : new(verdict, RuleValue.Of(contact.Chemical.Name), RuleValue.Of(contact.Words));
    }

    /// <summary>The verdict of <see cref="Worst"/> alone, from sets of families.</summary>
    public static RuleVerdict WorstVerdict(MaterialContacts contacts, ulong chemicals) =>
        (chemicals & contacts.Attacking) != 0 ? RuleVerdict.Fail
        : (chemicals & ~contacts.Resisted) != 0 ? RuleVerdict.Marginal
        : RuleVerdict.Pass;

    /// <summary>One sentence.</summary>
    public static string Explain(string part, in RuleFinding finding) =>
        finding.Offered.Text == Unknown
            ? $"{part} may meet \"{finding.Needed}\", which is {finding.Offered}: ask the supplier."
            : $"{part} meets {finding.Needed}; its material is {finding.Offered}.";
}
