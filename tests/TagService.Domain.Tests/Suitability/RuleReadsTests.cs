using CsCheck;
using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.Suitability.Rules;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Suitability;

/// <summary>
/// Variations re-judge only the rules that read what was varied, so a rule that reads more than it declares would give
/// stale verdicts. Here every field that a rule does not declare is exchanged at once: the verdict must stay.
/// </summary>
public sealed class RuleReadsTests
{
    private static readonly string[] Categories = [.. AssetProfiles.Table.All.Select(p => p.Name)];

    private static readonly Gen<ResolvedAsset> Assets =
        from category in Gen.Int[0, Categories.Length - 1]
        from zone in Gen.Int[0, 3]
        from depth in Gen.Double[0, 3]
        from cycles in Gen.Int[0, 500]
        from curve in Gen.Double[0, 200]
        from food in Gen.Bool
        from wash in Gen.Bool
        from bits in Gen.Int[16, 496]
        select ProfileResolution.Resolve(new()
        {
            Category = Categories[category],
            Surface = new() { CurvatureRadiusMm = curve },
            Identity = new() { EpcBits = bits, UserMemoryBits = cycles, AccessPassword = wash },
            Environment = new()
            {
                HazardousArea = zone == 0 ? null : new() { Zone = zone.ToString(System.Globalization.CultureInfo.InvariantCulture).Replace('3', '0'), Group = "IIB" },
                ImmersionM = depth, SterilisationCycles = cycles, LaundryCycles = cycles / 2, FoodContact = food, PressureWash = wash,
            },
        }).Asset;

    [Fact]
    public void Reads_EverythingElseExchanged_VerdictStays() =>
        Gen.Select(Assets, Assets, Gen.Int[0, SuitabilityRules.All.Count - 1], Gen.Int[0, TagClassCatalogue.BuiltIn.All.Count - 1], Gen.Int[0, AttachmentMethods.All.Count - 1])
            .Sample((asset, other, rule, tagClass, method) =>
            {
                var judged = SuitabilityRules.All[rule];
                var exchanged = Exchange(asset, other, ~judged.Reads);
                var c = new SuitabilityCase(asset, TagClassCatalogue.BuiltIn.All[tagClass], AttachmentMethods.All[method]);
                return judged.Evaluate(c) == judged.Evaluate(c with { Asset = exchanged });
            });

    /// <summary>Rules that judge by sets where they explain by lists must say the same.</summary>
    [Fact]
    public void Judge_AnyCase_IsTheVerdictOfEvaluate() =>
        Gen.Select(Assets, Lists, Gen.Int[0, TagClassCatalogue.BuiltIn.All.Count - 1], Gen.Int[0, AttachmentMethods.All.Count - 1])
            .Sample((asset, lists, tagClass, method) =>
            {
                var c = new SuitabilityCase(
                    asset with { IpRequired = lists.Ip, Chemicals = lists.Chemicals },
                    TagClassCatalogue.BuiltIn.All[tagClass], AttachmentMethods.All[method]);
                Assert.All(SuitabilityRules.All.Cast<SuitabilityRule>(), rule => Assert.Equal(rule.Evaluate(c).Verdict, rule.Judge(c)));
            });

    private static readonly string[] IpTexts = ["66", "68", "69", "40", "00", "X7", "IP6K9K", "IP9", "none"];

    private static readonly string[] ChemicalTexts = ["no such family", .. Chemicals.Families.All.Select(f => f.Id)];

    private static readonly Gen<(string[] Ip, string[] Chemicals)> Lists =
        from ip in Gen.Int[0, IpTexts.Length - 1].Array[0, 3]
        from chemicals in Gen.Int[0, ChemicalTexts.Length - 1].Array[0, 3]
        select (ip.Select(i => IpTexts[i]).ToArray(), chemicals.Select(i => ChemicalTexts[i]).ToArray());

    [Fact]
    public void Exchange_AllFields_LeavesNothingDifferent()
    {
        // Guards the helper below: a field it forgets would make the test above blind for that field.
        Gen.Select(Assets, Assets).Sample((asset, other) =>
            AssetComparison.Differences(Exchange(asset, other, ~AssetFields.None), other) == AssetFields.None);
    }

    private static ResolvedAsset Exchange(ResolvedAsset a, ResolvedAsset b, AssetFields fields)
    {
        return a with
        {
            Material = Pick(AssetFields.Material, a.Material, b.Material),
            Coating = Pick(AssetFields.Coating, a.Coating, b.Coating),
            CurvatureRadiusMm = Pick(AssetFields.CurvatureRadiusMm, a.CurvatureRadiusMm, b.CurvatureRadiusMm),
            ThicknessMm = Pick(AssetFields.ThicknessMm, a.ThicknessMm, b.ThicknessMm),
            Backing = Pick(AssetFields.Backing, a.Backing, b.Backing),
            LengthMm = Pick(AssetFields.LengthMm, a.LengthMm, b.LengthMm),
            WidthMm = Pick(AssetFields.WidthMm, a.WidthMm, b.WidthMm),
            MaxHeightMm = Pick(AssetFields.MaxHeightMm, a.MaxHeightMm, b.MaxHeightMm),
            AllowDrilling = Pick(AssetFields.AllowDrilling, a.AllowDrilling, b.AllowDrilling),
            Setting = Pick(AssetFields.Setting, a.Setting, b.Setting),
            TemperatureMinC = Pick(AssetFields.TemperatureMinC, a.TemperatureMinC, b.TemperatureMinC),
            TemperatureMaxC = Pick(AssetFields.TemperatureMaxC, a.TemperatureMaxC, b.TemperatureMaxC),
            PeakTemperatureC = Pick(AssetFields.PeakTemperatureC, a.PeakTemperatureC, b.PeakTemperatureC),
            ApplicationTemperatureC = Pick(AssetFields.ApplicationTemperatureC, a.ApplicationTemperatureC, b.ApplicationTemperatureC),
            IpRequired = Pick(AssetFields.IpRequired, a.IpRequired, b.IpRequired),
            ImmersionM = Pick(AssetFields.ImmersionM, a.ImmersionM, b.ImmersionM),
            PressureWash = Pick(AssetFields.PressureWash, a.PressureWash, b.PressureWash),
            ImpactJ = Pick(AssetFields.ImpactJ, a.ImpactJ, b.ImpactJ),
            Abrasion = Pick(AssetFields.Abrasion, a.Abrasion, b.Abrasion),
            Flexing = Pick(AssetFields.Flexing, a.Flexing, b.Flexing),
            Chemicals = Pick(AssetFields.Chemicals, a.Chemicals, b.Chemicals),
            UvYears = Pick(AssetFields.UvYears, a.UvYears, b.UvYears),
            SterilisationCycles = Pick(AssetFields.SterilisationCycles, a.SterilisationCycles, b.SterilisationCycles),
            LaundryCycles = Pick(AssetFields.LaundryCycles, a.LaundryCycles, b.LaundryCycles),
            HazardousArea = Pick(AssetFields.HazardousArea, a.HazardousArea, b.HazardousArea),
            TamperRisk = Pick(AssetFields.TamperRisk, a.TamperRisk, b.TamperRisk),
            FoodContact = Pick(AssetFields.FoodContact, a.FoodContact, b.FoodContact),
            NeedsPrint = Pick(AssetFields.NeedsPrint, a.NeedsPrint, b.NeedsPrint),
            EpcBits = Pick(AssetFields.EpcBits, a.EpcBits, b.EpcBits),
            UserMemoryBits = Pick(AssetFields.UserMemoryBits, a.UserMemoryBits, b.UserMemoryBits),
            AccessPassword = Pick(AssetFields.AccessPassword, a.AccessPassword, b.AccessPassword),
            Reading = Pick(AssetFields.Reading, a.Reading, b.Reading),
            RequiredRangeM = Pick(AssetFields.RequiredRangeM, a.RequiredRangeM, b.RequiredRangeM),
            RequiredProbability = Pick(AssetFields.RequiredProbability, a.RequiredProbability, b.RequiredProbability),
            LifeYears = Pick(AssetFields.Service, a.LifeYears, b.LifeYears),
            SweepsPerYear = Pick(AssetFields.Service, a.SweepsPerYear, b.SweepsPerYear),
            Currency = Pick(AssetFields.Service, a.Currency, b.Currency),
            LabourRatePerHour = Pick(AssetFields.Service, a.LabourRatePerHour, b.LabourRatePerHour),
            PriceFactor = Pick(AssetFields.Service, a.PriceFactor, b.PriceFactor),
            VisitMinutes = Pick(AssetFields.Service, a.VisitMinutes, b.VisitMinutes),
            DiscountRate = Pick(AssetFields.Service, a.DiscountRate, b.DiscountRate),
        };

        T Pick<T>(AssetFields field, T own, T other) => (fields & field) != 0 ? other : own;
    }
}
