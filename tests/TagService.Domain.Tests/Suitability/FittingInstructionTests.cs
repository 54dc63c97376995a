using TagService.Domain.Fitting;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Suitability;

/// <summary>Fitting instructions: complete, filled in, in a sensible order (common practice of bonding and of records).</summary>
public sealed class FittingInstructionTests
{
    [Fact]
    public void For_EveryClassAndItsMethods_FillsEveryPlaceholder()
    {
        var asset = TestAssets.Benign(coating: TestAssets.Bare with { MustBeRemoved = true, Name = "oily" }) with
        {
            ApplicationTemperatureC = -30, CurvatureRadiusMm = 80, HazardousArea = new() { Zone = "2" },
        };
        foreach (var tagClass in TagClassCatalogue.BuiltIn.All)
        {
            foreach (var method in tagClass.AttachmentMethods.Select(id => AttachmentMethods.Table[id]))
            {
                var instruction = FittingInstruction.For(asset, tagClass, method);
                Assert.All(instruction.Steps, s => Assert.DoesNotMatch("[{}]", s));
                Assert.True(instruction.Minutes >= tagClass.ApplicationMinutes + method.Minutes);
            }
        }
    }

    [Fact]
    public void For_EveryMethod_ReadsPhotographsAndRecordsAtTheEnd() => Assert.All(
        AttachmentMethods.All,
        m => Assert.Equal(["read-after", "photograph", "record"], m.Steps.TakeLast(3)));

    // The step of the recommendation and the check of the instruction are one and the same.
    [Fact]
    public void For_EveryClass_ItsCheckIsTheAcceptanceCheck()
    {
        var asset = TestAssets.Benign();
        foreach (var tagClass in TagClassCatalogue.BuiltIn.All)
        {
            var method = AttachmentMethods.Table[tagClass.AttachmentMethods[0]];
            var instruction = FittingInstruction.For(asset, tagClass, method);
            var step = instruction.Steps[instruction.StepIds.ToList().IndexOf("read-after")];
            Assert.Contains(AcceptanceCheck.For(asset, tagClass, method).Sentence, step, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void For_EveryAdhesive_CleansDriesChecksTheTemperatureAndWaits() => Assert.All(
        AttachmentMethods.All.Where(m => m.Adhesive is not null),
        m =>
        {
            int Of(params string[] ids) => m.Steps.ToList().FindIndex(ids.Contains);
            Assert.InRange(Of("clean-solvent", "wipe-clean"), 0, Of("let-dry") - 1);
            Assert.InRange(Of("let-dry"), 0, Of("check-application-temperature") - 1);
            Assert.InRange(Of("check-application-temperature"), 0, Of("wait-bond") - 1);
        });

    [Fact]
    public void For_ColdOilySteel_RemovesTheOilAndWarmsBeforeBonding()
    {
        var asset = TestAssets.Benign(coating: TestAssets.Bare with { MustBeRemoved = true, Name = "oily" }) with { ApplicationTemperatureC = 2 };
        var cold = FittingInstruction.For(asset, TagClassCatalogue.BuiltIn["polymer-label-large"], AttachmentMethods.Table["acrylic-label"]);
        var warm = FittingInstruction.For(TestAssets.Benign(), TagClassCatalogue.BuiltIn["polymer-label-large"], AttachmentMethods.Table["acrylic-label"]);
        var ids = cold.StepIds.ToList();
        Assert.InRange(ids.IndexOf("remove-coating"), 0, ids.IndexOf("warm-surface") - 1);
        Assert.InRange(ids.IndexOf("warm-surface"), 0, ids.IndexOf("peel-liner") - 1);
        Assert.True(cold.Minutes > warm.Minutes);
        Assert.Contains(cold.Steps, s => s.Contains("oily", StringComparison.Ordinal));
        Assert.Contains(cold.Steps, s => s.Contains("10 °C", StringComparison.Ordinal));
    }

    [Fact]
    public void For_ExplosiveAtmosphere_AsksForThePermitBeforeAnythingIsTouched()
    {
        var asset = TestAssets.Benign() with { HazardousArea = new() { Zone = "1" } };
        var ids = FittingInstruction.For(asset, TagClassCatalogue.BuiltIn["rivet-mount-tag"], AttachmentMethods.Table["rivets"]).StepIds.ToList();
        Assert.InRange(ids.IndexOf("ask-permit"), 0, 1);
    }

    [Fact]
    public void Steps_All_AreUsedSomewhereAndHaveASource()
    {
        string[] conditional = ["ask-permit", "remove-coating", "warm-surface", "bend-along"];
        var used = AttachmentMethods.All.SelectMany(m => m.Steps).Concat(conditional).ToHashSet();
        Assert.All(FittingSteps.All, s => Assert.Contains(s.Id, used));
        Assert.All(FittingSteps.All, s => Assert.NotEmpty(s.Source));
        Assert.All(FittingSteps.All.Where(s => s.Caution is not null), s => Assert.NotNull(Cautions.Table.Find(s.Caution)));
    }
}
