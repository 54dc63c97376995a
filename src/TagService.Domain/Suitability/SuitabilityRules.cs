using TagService.Domain.Suitability.Rules;

namespace TagService.Domain.Suitability;

/// <summary>The registry of rules: one new file and one line here, and the shared tests cover it.</summary>
public static class SuitabilityRules
{
    /// <summary>All rules, in the order in which people read their reasons.</summary>
    public static IReadOnlyList<ISuitabilityRule> All { get; } =
    [
        new HazardousAreaRule(),
        new HazardousGroupRule(),
        new HazardousTemperatureClassRule(),
        new HazardousCertificateDateRule(),
        new RoomLengthRule(),
        new RoomWidthRule(),
        new RoomHeightRule(),
        new RecessDepthRule(),
        new CurvatureRule(),
        new ProtrusionRule(),
        new SurfaceRule(),
        new DrillingRule(),
        new GripRule(),
        new ManufactureRule(),
        new SurfaceEnergyRule(),
        new RoughnessRule(),
        new LooseCoatingRule(),
        new ApplicationTemperatureRule(),
        new TagTemperatureMinRule(),
        new TagTemperatureMaxRule(),
        new TagTemperaturePeakRule(),
        new FixingTemperatureMinRule(),
        new FixingTemperatureMaxRule(),
        new FixingTemperaturePeakRule(),
        new WaterRule(),
        new DustRule(),
        new ImmersionRule(),
        new PressureWashRule(),
        new FixingWaterRule(),
        new ImpactRule(),
        new AbrasionRule(),
        new TagFlexingRule(),
        new FixingFlexingRule(),
        new FaceChemicalsRule(),
        new FixingChemicalsRule(),
        new SunRule(),
        new SterilisationRule(),
        new LaundryRule(),
        new TamperRule(),
        new LegibilityRule(),
        new FoodContactRule(),
        new IdentityMemoryRule(),
        new UserMemoryRule(),
        new AccessPasswordRule(),
    ];

    /// <summary>Rules that look at asset and tag class only: once for each class.</summary>
    public static IReadOnlyList<ISuitabilityRule> OfTagClass { get; } = Of(RuleScope.TagClass);

    /// <summary>Rules that look at asset and fixing only: once for each fixing.</summary>
    public static IReadOnlyList<ISuitabilityRule> OfMethod { get; } = Of(RuleScope.Method);

    /// <summary>Rules that look at both: once for each pair.</summary>
    public static IReadOnlyList<ISuitabilityRule> OfBoth { get; } = Of(RuleScope.Both);

    private static readonly RuleGroup[] Groups =
        [.. Enum.GetValues<RuleScope>().Select(scope => new RuleGroup(Of(scope).Cast<SuitabilityRule>()))];

    /// <summary>The rules of one scope as they are judged for every class, fixing or pair.</summary>
    internal static RuleGroup GroupOf(RuleScope scope) => Groups[(int)scope];

    private static ISuitabilityRule[] Of(RuleScope scope) => [.. All.Where(r => r.Scope == scope)];
}
