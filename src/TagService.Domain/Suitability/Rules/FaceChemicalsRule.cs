using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The tag's face bears every chemical that reaches it; the worst decides. An unknown chemical is marginal.</summary>
/// <remarks>Source: chemical compatibility table (its rows name their source).</remarks>
internal sealed class FaceChemicalsRule() : SuitabilityRule("face-chemicals", "chemicals", RuleScope.TagClass, AssetFields.Chemicals)
{
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        ChemicalContacts.Worst(c.TagClass.Limits.FaceContacts, c.Asset.Chemicals);

    public override RuleVerdict Judge(in SuitabilityCase c) =>
        ChemicalContacts.WorstVerdict(c.TagClass.Limits.FaceContacts, c.Asset.ChemicalSet);

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        ChemicalContacts.Explain("The tag's face", finding);
}
