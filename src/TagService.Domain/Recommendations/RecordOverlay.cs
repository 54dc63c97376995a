using TagService.Domain.Profiles;

namespace TagService.Domain.Recommendations;

/// <summary>Lays values under a record: what the record gives always wins.</summary>
public static class RecordOverlay
{
    /// <summary>The record with its gaps filled where <paramref name="values"/> has something.</summary>
    public static AssetRecord Fill(AssetRecord record, ProfileValues values) => record with
    {
        Surface = Fill(record.Surface, values.Surface),
        Mounting = Fill(record.Mounting, values.Mounting),
        Environment = Fill(record.Environment, values.Environment),
        Contents = record.Contents ?? values.Contents,
        Reading = Fill(record.Reading, values.Reading),
        Service = Fill(record.Service, values.Service),
        Identity = Fill(record.Identity, values.Identity),
    };

    /// <summary>Surface, field by field.</summary>
    public static SurfaceRecord? Fill(SurfaceRecord? over, SurfaceRecord? under) =>
        over is null ? under : under is null ? over : new()
        {
            Material = over.Material ?? under.Material,
            Coating = over.Coating ?? under.Coating,
            CurvatureRadiusMm = over.CurvatureRadiusMm ?? under.CurvatureRadiusMm,
            ThicknessMm = over.ThicknessMm ?? under.ThicknessMm,
            Backing = over.Backing ?? under.Backing,
        };

    /// <summary>Room, field by field.</summary>
    public static MountingRecord? Fill(MountingRecord? over, MountingRecord? under) =>
        over is null ? under : under is null ? over : new()
        {
            LengthMm = over.LengthMm ?? under.LengthMm,
            WidthMm = over.WidthMm ?? under.WidthMm,
            MaxHeightMm = over.MaxHeightMm ?? under.MaxHeightMm,
            AllowDrilling = over.AllowDrilling ?? under.AllowDrilling,
        };

    /// <summary>Surroundings, field by field.</summary>
    public static EnvironmentRecord? Fill(EnvironmentRecord? over, EnvironmentRecord? under) =>
        over is null ? under : under is null ? over : new()
        {
            Setting = over.Setting ?? under.Setting,
            TemperatureMinC = over.TemperatureMinC ?? under.TemperatureMinC,
            TemperatureMaxC = over.TemperatureMaxC ?? under.TemperatureMaxC,
            PeakTemperatureC = over.PeakTemperatureC ?? under.PeakTemperatureC,
            ApplicationTemperatureC = over.ApplicationTemperatureC ?? under.ApplicationTemperatureC,
            IpRequired = over.IpRequired ?? under.IpRequired,
            ImmersionM = over.ImmersionM ?? under.ImmersionM,
            PressureWash = over.PressureWash ?? under.PressureWash,
            ImpactJ = over.ImpactJ ?? under.ImpactJ,
            Abrasion = over.Abrasion ?? under.Abrasion,
            Flexing = over.Flexing ?? under.Flexing,
            Chemicals = over.Chemicals ?? under.Chemicals,
            UvYears = over.UvYears ?? under.UvYears,
            SterilisationCycles = over.SterilisationCycles ?? under.SterilisationCycles,
            LaundryCycles = over.LaundryCycles ?? under.LaundryCycles,
            HazardousArea = over.HazardousArea ?? under.HazardousArea,
            TamperRisk = over.TamperRisk ?? under.TamperRisk,
            FoodContact = over.FoodContact ?? under.FoodContact,
        };

    /// <summary>Reading, field by field.</summary>
    public static ReadingRecord? Fill(ReadingRecord? over, ReadingRecord? under) =>
        over is null ? under : under is null ? over : new()
        {
            RequiredRangeM = over.RequiredRangeM ?? under.RequiredRangeM,
            RequiredProbability = over.RequiredProbability ?? under.RequiredProbability,
            Region = over.Region ?? under.Region,
            ReaderKind = over.ReaderKind ?? under.ReaderKind,
            EirpDbm = over.EirpDbm ?? under.EirpDbm,
            ReaderGainDbi = over.ReaderGainDbi ?? under.ReaderGainDbi,
            ReaderSensitivityDbm = over.ReaderSensitivityDbm ?? under.ReaderSensitivityDbm,
            Polarization = over.Polarization ?? under.Polarization,
            Site = over.Site ?? under.Site,
            TagOrientation = over.TagOrientation ?? under.TagOrientation,
            Looks = over.Looks ?? under.Looks,
        };

    /// <summary>Service, field by field.</summary>
    public static ServiceRecord? Fill(ServiceRecord? over, ServiceRecord? under) =>
        over is null ? under : under is null ? over : new()
        {
            LifeYears = over.LifeYears ?? under.LifeYears,
            SweepsPerYear = over.SweepsPerYear ?? under.SweepsPerYear,
            Currency = over.Currency ?? under.Currency,
            LabourRatePerHour = over.LabourRatePerHour ?? under.LabourRatePerHour,
            VisitMinutes = over.VisitMinutes ?? under.VisitMinutes,
            DiscountRate = over.DiscountRate ?? under.DiscountRate,
        };

    /// <summary>Identity, field by field.</summary>
    public static IdentityRecord? Fill(IdentityRecord? over, IdentityRecord? under) =>
        over is null ? under : under is null ? over : new()
        {
            Scheme = over.Scheme ?? under.Scheme,
            EpcBits = over.EpcBits ?? under.EpcBits,
            UserMemoryBits = over.UserMemoryBits ?? under.UserMemoryBits,
            AccessPassword = over.AccessPassword ?? under.AccessPassword,
        };
}
