namespace TagService.Domain.Suitability.Rules;

/// <summary>The worst thing that an asset's chemicals do to one material.</summary>
internal static class ChemicalContacts
{
    private const string Unknown = "not in the compatibility table";

    /// <summary>The worst contact; a chemical or material outside the table counts as marginal.</summary>
    public static RuleFinding Worst(string material, IReadOnlyList<string> chemicals)
    {
        var worst = RuleFinding.Pass;
        for (var i = 0; i < chemicals.Count; i++)
        {
            var finding = Judge(material, chemicals[i]);
            if (finding.Verdict > worst.Verdict)
                worst = finding;
        }

        return worst;
    }

    /// <summary>One sentence.</summary>
    public static string Explain(string part, in RuleFinding finding) =>
        finding.Offered.Text == Unknown
            ? $"{part} may meet \"{finding.Needed}\", which is {finding.Offered}: ask the supplier."
            : $"{part} meets {finding.Needed}; its material is {finding.Offered}.";

    private static RuleFinding Judge(string material, string chemical) =>
        Chemicals.ContactOf(material, chemical) is { } contact
            ? new((RuleVerdict)(int)contact.Rating, RuleValue.Of(contact.Chemical.Name), RuleValue.Of(contact.Words))
            : new(RuleVerdict.Marginal, RuleValue.Of(chemical), RuleValue.Of(Unknown));
}
