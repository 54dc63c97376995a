using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The fixing bears every chemical that reaches it; the worst decides. An unknown chemical is marginal.</summary>
/// <remarks>Source: chemical compatibility table (its rows name their source).</remarks>
internal sealed class FixingChemicalsRule() : SuitabilityRule("fixing-chemicals", "chemicals", RuleScope.Method, AssetFields.Chemicals)
{
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        ChemicalContacts.Worst(c.Method.FixingContacts, c.Asset.Chemicals);

    public override RuleVerdict Judge(in SuitabilityCase c) =>
        ChemicalContacts.WorstVerdict(c.Method.FixingContacts, c.Asset.ChemicalSet);

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        ChemicalContacts.Explain("The fixing", finding);
}
