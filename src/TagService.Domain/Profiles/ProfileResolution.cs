using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>
/// Fills the gaps of a record: record before profile before setting before the product's defaults. Contradictions
/// within the record are not settled here, see <see cref="RecordContradictions"/>; assumed values always give way to
/// given ones. Pure and deterministic; texts are written only when asked for.
/// </summary>
public static class ProfileResolution
{
    /// <summary>Understands the record and fills its gaps.</summary>
    /// <param name="record">Any record, however thin.</param>
    public static Resolution Resolve(AssetRecord record) => Resolve(record, ProfileMatcher.Match(record));

    /// <summary>Fills the gaps from a profile already found, for example when one field of the same record is varied.</summary>
    /// <param name="record">Any record, however thin.</param>
    /// <param name="match">How it was understood.</param>
    public static Resolution Resolve(AssetRecord record, ProfileMatch match)
    {
        var gaps = new Gaps();
        var profile = match.Profile;
        var typical = profile.Typical;
        var compiled = CompiledProfile.Of(profile);

        var surface = SurfacePart.Resolve(record, compiled, typical, gaps);
        var room = RoomPart.Resolve(record.Mounting, typical.Mounting!, gaps);
        var service = ServicePart.Resolve(record.Service, typical.Service, gaps);
        var identity = IdentityPart.Resolve(record.Identity, typical.Identity, gaps);
        var setting = record.Environment?.Setting ?? typical.Environment?.Setting;
        var row = Settings.Of(gaps.Pick(
            ResolvedField.Setting, record.Environment?.Setting, typical.Environment?.Setting,
            ProductDefault.All.Environment!.Setting));
        var merge = new SettingMerge(setting != typical.Environment?.Setting);
        var env = new EnvironmentPart(record.Environment, typical.Environment, row, merge, gaps);
        var (min, max, peak) = env.Temperatures();

        var asset = new ResolvedAsset
        {
            Profile = profile,
            Material = surface.Material,
            Coating = surface.Coating,
            CurvatureRadiusMm = surface.CurvatureRadiusMm,
            ThicknessMm = surface.ThicknessMm,
            Backing = surface.Backing,
            LengthMm = room.LengthMm,
            WidthMm = room.WidthMm,
            MaxHeightMm = room.MaxHeightMm,
            AllowDrilling = room.AllowDrilling,
            Setting = row.Setting,
            TemperatureMinC = min,
            TemperatureMaxC = max,
            PeakTemperatureC = peak,
            ApplicationTemperatureC = env.ApplicationTemperatureC(),
            IpRequired = env.IpRequired(compiled),
            ImmersionM = env.ImmersionM(),
            PressureWash = env.PressureWash(),
            ImpactJ = env.ImpactJ(),
            Abrasion = env.Abrasion(),
            Flexing = env.Flexing(),
            Chemicals = env.Chemicals(),
            UvYears = env.UvYears(service.LifeYears),
            SterilisationCycles = env.SterilisationCycles(),
            LaundryCycles = env.LaundryCycles(),
            HazardousArea = env.HazardousArea(),
            TamperRisk = env.TamperRisk(),
            FoodContact = env.FoodContact(),
            NeedsPrint = RoomPart.NeedsPrint(record.Attributes, gaps),
            EpcBits = identity.EpcBits,
            UserMemoryBits = identity.UserMemoryBits,
            AccessPassword = identity.AccessPassword,
            RequiredRangeM = ReadingPart.RequiredRangeM(record.Reading, typical.Reading, gaps),
            RequiredProbability = ReadingPart.RequiredProbability(record.Reading, typical.Reading, gaps),
            Reading = ReadingPart.Resolve(record.Reading, typical.Reading, row, merge, gaps),
            LifeYears = service.LifeYears,
            SweepsPerYear = service.SweepsPerYear,
            Currency = service.Money.Currency,
            LabourRatePerHour = service.Money.LabourRatePerHour,
            PriceFactor = service.Money.PriceFactor,
            VisitMinutes = service.VisitMinutes,
            DiscountRate = service.DiscountRate,
        };
        return new(asset, match, gaps);
    }
}
