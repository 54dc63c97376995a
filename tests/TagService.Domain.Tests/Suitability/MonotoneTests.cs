using CsCheck;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.Surfaces;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Suitability;

/// <summary>
/// Common practice as properties: rougher surroundings never improve a verdict, more room and stronger limits never
/// worsen one. Over all rules, tag classes and methods.
/// </summary>
public sealed class MonotoneTests
{
    private static readonly Dictionary<string, Func<ResolvedAsset, ResolvedAsset>> s_rougher = new()
    {
        ["hotter"] = a => a with { TemperatureMaxC = a.TemperatureMaxC + 30, PeakTemperatureC = a.PeakTemperatureC + 30 },
        ["colder"] = a => a with { TemperatureMinC = a.TemperatureMinC - 30 },
        ["colder-fitting"] = a => a with { ApplicationTemperatureC = a.ApplicationTemperatureC - 15 },
        ["deeper"] = a => a with { ImmersionM = a.ImmersionM + 2 },
        ["wetter"] = a => a with { IpRequired = [.. a.IpRequired, "66", "68", "69"] },
        ["washed"] = a => a with { PressureWash = true },
        ["harder-knocks"] = a => a with { ImpactJ = a.ImpactJ * 3 + 1 },
        ["more-abrasive"] = a => a with { Abrasion = Level.High },
        ["more-bending"] = a => a with { Flexing = Level.High },
        ["more-sun"] = a => a with { UvYears = a.UvYears + 6 },
        ["more-steam"] = a => a with { SterilisationCycles = a.SterilisationCycles + 300 },
        ["more-laundry"] = a => a with { LaundryCycles = a.LaundryCycles + 150 },
        ["more-chemicals"] = a => a with { Chemicals = [.. a.Chemicals, "solvent", "strong-acid"] },
        ["more-tampering"] = a => a with { TamperRisk = Level.High },
        ["no-drilling"] = a => a with { AllowDrilling = false },
        ["food"] = a => a with { FoodContact = true },
        ["print"] = a => a with { NeedsPrint = true },
        ["tighter-curve"] = a => a with { CurvatureRadiusMm = a.CurvatureRadiusMm == 0 ? 300 : a.CurvatureRadiusMm / 3 },
        ["rougher-surface"] = a => a with { Coating = a.Coating with { Roughness = SurfaceRoughness.VeryRough } },
        ["lower-energy"] = a => a with { Coating = a.Coating with { SurfaceEnergyMnPerM = new(18, 19.4, 22) } },
        ["oily"] = a => a with { Coating = a.Coating with { MustBeRemoved = true, SurfaceEnergyMnPerM = null } },
        ["explosive"] = a => a with { HazardousArea = new() { Zone = "0", Group = "IIC", TemperatureClass = "T6" } },
        ["less-room"] = a => a with { LengthMm = a.LengthMm / 2, WidthMm = a.WidthMm / 2, MaxHeightMm = a.MaxHeightMm / 2 },
        ["thinner-wall"] = a => a with { ThicknessMm = a.ThicknessMm / 4 },
    };

    private static readonly Dictionary<string, Func<TagClass, TagClass>> s_stronger = new()
    {
        ["heat"] = t => t with { Limits = t.Limits with { TemperatureMaxC = t.Limits.TemperatureMaxC + 40, PeakTemperatureC = t.Limits.PeakTemperatureC + 40 } },
        ["cold"] = t => t with { Limits = t.Limits with { TemperatureMinC = t.Limits.TemperatureMinC - 40 } },
        ["water"] = t => t with { Limits = t.Limits with { IpCodes = [.. t.Limits.IpCodes, "IP66", "IP68", "IP69"], ImmersionM = t.Limits.ImmersionM + 5, PressureWash = true } },
        ["wear"] = t => t with { Limits = t.Limits with { ImpactJ = t.Limits.ImpactJ + 20, Abrasion = Level.High, Flexing = Level.High, UvYears = t.Limits.UvYears + 10 } },
        ["cycles"] = t => t with { Limits = t.Limits with { SterilisationCycles = t.Limits.SterilisationCycles + 500, LaundryCycles = t.Limits.LaundryCycles + 500 } },
        ["people"] = t => t with { Limits = t.Limits with { TamperResistance = Level.High, Printable = true, FoodContact = true } },
        ["bend"] = t => t with { Limits = t.Limits with { MinBendRadiusMm = t.Limits.MinBendRadiusMm / 2 } },
        ["smaller"] = t => t with { Size = new(t.Size.LengthMm / 2, t.Size.WidthMm / 2, t.Size.HeightMm / 2) },
    };

    public static TheoryData<string> Rougher => [.. s_rougher.Keys];

    public static TheoryData<string> Stronger => [.. s_stronger.Keys];

    [Theory]
    [MemberData(nameof(Rougher))]
    public void AllRules_RougherSurroundings_NeverImproveAVerdict(string change) =>
        TestAssets.Any.Sample(
            asset =>
            {
                // "oily" is compared with a coating of the same kind that may stay on.
                var from = change == "oily" ? asset with { Coating = asset.Coating with { MustBeRemoved = false, SurfaceEnergyMnPerM = null } } : asset;
                if (change == "lower-energy" && asset.Coating.MustBeRemoved)
                    return;
                var rougher = s_rougher[change](from);
                foreach (var c in SuitabilityRulesTests.Cases(from))
                {
                    foreach (var rule in SuitabilityRules.All)
                    {
                        // A band or tie wants a curve: for it, and only for it, tighter is not rougher.
                        if (rule.Id == "grip" && change == "tighter-curve")
                            continue;
                        Assert.True(rule.Evaluate(c).Verdict <= rule.Evaluate(c with { Asset = rougher }).Verdict, rule.Id);
                    }
                }
            },
            iter: 4);

    [Theory]
    [MemberData(nameof(Stronger))]
    public void AllRules_StrongerConstruction_NeverWorsensAVerdict(string change) =>
        TestAssets.Any.Sample(
            asset =>
            {
                foreach (var c in SuitabilityRulesTests.Cases(asset))
                {
                    var stronger = c with { TagClass = s_stronger[change](c.TagClass) };
                    foreach (var rule in SuitabilityRules.All)
                        Assert.True(rule.Evaluate(stronger).Verdict <= rule.Evaluate(c).Verdict, rule.Id);
                }
            },
            iter: 4);
}
