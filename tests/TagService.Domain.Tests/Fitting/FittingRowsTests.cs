using System.Text.RegularExpressions;
using TagService.Domain.Fitting;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Fitting;

/// <summary>The data rows of fitting: complete, consistent with the tables they refer to, and without any secret.</summary>
public sealed partial class FittingRowsTests
{
    /// <summary>Lock payloads: FC2A0 (both passwords and EPC memory locked) and 0C030 (EPC memory for ever) are published examples
    /// (secondary); the other two were worked out by hand from the order of the pairs kill, access, EPC, TID, user.</summary>
    [Fact]
    public void WritePolicies_UhfLocks_AreTheDocumentedPayloads()
    {
        var protectable = WritePolicies.Table["uhf-with-passwords"];
        Assert.Equal("FC2A0", protectable.Lock!.Payload.ToString());
        Assert.Equal(["FC3A0", "FC2B0"], protectable.OwnersChoices.Select(c => c.Lock!.Payload.ToString()));
        Assert.Equal("0C030", Assert.Single(WritePolicies.Table["uhf-without-passwords"].OwnersChoices).Lock!.Payload.ToString());
    }

    [Fact]
    public void WritePolicies_EveryClass_HasTheOneOfItsKind()
    {
        foreach (var tagClass in TagClassCatalogue.BuiltIn.All)
        {
            foreach (var has in new[] { true, false })
            {
                var policy = WritePolicies.For(tagClass with { Memory = tagClass.Memory with { AccessPassword = has } });
                Assert.Equal(tagClass.Technology, policy.Technology);
                Assert.True(policy.AccessPassword is null || policy.AccessPassword == has);
                Assert.Equal(has && tagClass.Technology == TagTechnology.Uhf, policy.Lock is not null);
            }
        }
    }

    /// <summary>A usual setting can be undone by whoever has the password; what cannot be undone is the owner's choice (common practice).</summary>
    [Fact]
    public void WritePolicies_UsualSetting_IsNeverForEver() => Assert.All(
        WritePolicies.Table.All.Where(p => p.Lock is not null),
        p => Assert.DoesNotContain(
            TagService.Domain.Identity.Tags.LockAction.PermanentLock, new[] { p.Lock!.KillPassword, p.Lock.AccessPassword, p.Lock.Epc, p.Lock.User }));

    [Fact]
    public void WritePolicies_Texts_HoldNoSecretButSayWhereItComesFrom() => Assert.All(WritePolicies.Table.All, p =>
    {
        string[] texts = [.. p.Steps, .. p.Passwords.SelectMany(w => new[] { w.Name, w.Rule, w.From }), .. p.OwnersChoices.Select(c => c.What)];
        Assert.All(texts, t => Assert.DoesNotMatch(EightHexDigits(), t));
        Assert.All(p.Passwords, w => Assert.Contains("the service does not know it", w.From, StringComparison.Ordinal));
    });

    [Fact]
    public void KitItems_Steps_AreStepsOfTheTable() => Assert.All(
        KitItems.All.SelectMany(k => k.ForSteps), id => Assert.NotNull(FittingSteps.Table.Find(id)));

    [Fact]
    public void KitItems_UsedUpThings_HaveAnAmountAndAUnit() => Assert.All(
        KitItems.All, k => Assert.Equal(k.Kind == KitKind.Consumable, k.PerTag > 0 && k.Unit.Length > 0));

    /// <summary>A fixing that is glued, drilled, tied or sewn needs something besides reader, camera and tape measure (common practice).</summary>
    [Fact]
    public void KitItems_EveryFixing_NeedsSomethingOfItsOwn() => Assert.All(
        AttachmentMethods.All.Where(m => m.Id is not "moulded-in"),
        m => Assert.Contains(KitItems.For([.. m.Steps]), k => k.ForSteps.Count > 0));

    /// <summary>Nothing is prepared after the tag is on, and nothing is fixed after the check (common practice).</summary>
    [Fact]
    public void Steps_OfEveryMethod_GoThroughThePartsOfTheWorkInOrder() => Assert.All(AttachmentMethods.All, m =>
    {
        var phases = m.Steps.Select(id => FittingSteps.Table[id].Phase).ToList();
        Assert.Equal(phases.Order(), phases);
        Assert.Contains(FittingPhase.Fix, phases);
    });

    [Fact]
    public void RecordItems_AskForIdentityTidAndCheck() => Assert.Superset(
        new HashSet<string> { "identity", "tid", "check-result" }, RecordItems.All.Where(r => r.Required).Select(r => r.Id).ToHashSet());

    [Fact]
    public void Remedies_EveryAirInterface_EndsWithRecordingIt() => Assert.All(
        Enum.GetValues<TagTechnology>(), t => Assert.Equal("record-silent", CheckRemedies.For(t)[^1].Id));

    [Fact]
    public void Rows_All_NameTheirSource()
    {
        Assert.All(WritePolicies.Table.All, r => Assert.NotEmpty(r.Source));
        Assert.All(KitItems.All, r => Assert.NotEmpty(r.Source));
        Assert.All(RecordItems.All, r => Assert.NotEmpty(r.Source));
        Assert.All(CheckRemedies.Table.All, r => Assert.NotEmpty(r.Source));
        Assert.All(FittingPlanning.Table.All, r => Assert.NotEmpty(r.Source));
    }

    [GeneratedRegex("\\b[0-9A-Fa-f]{8}\\b")]
    private static partial Regex EightHexDigits();
}
