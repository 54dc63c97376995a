using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>A record resolved part by part, so that a variation need resolve only the parts it touches.</summary>
internal readonly record struct AssetParts(
    SurfacePart Surface, RoomPart Room, ServicePart Service, Surroundings Surroundings, bool NeedsPrint, IdentityPart Identity, ReadingPart Reading)
{
    public static AssetParts Resolve(AssetRecord record, AssetProfile profile, Gaps gaps)
    {
        var typical = profile.Typical;
        var compiled = CompiledProfile.Of(profile);
        var surface = SurfacePart.Resolve(record.Surface, record.Contents, compiled, typical, gaps);
        var room = RoomPart.Resolve(record.Mounting, typical.Mounting!, gaps);
        var service = ServicePart.Resolve(record.Service, typical.Service, gaps);
        var surroundings = Surroundings.Resolve(record.Environment, compiled, typical.Environment, service.LifeYears, gaps);
        return new(
            surface, room, service, surroundings,
            RoomPart.NeedsPrint(record.Attributes, gaps),
            IdentityPart.Resolve(record.Identity, typical.Identity, gaps),
            ReadingPart.Resolve(record.Reading, typical.Reading, surroundings.Setting, surroundings.Merge, gaps));
    }

    /// <summary>
    /// The parts of the same record with <paramref name="values"/> laid under it (<see cref="RecordOverlay.Fill(AssetRecord, ProfileValues)"/>),
    /// taken over where they cannot differ.
    /// </summary>
    public AssetParts Vary(AssetRecord record, AssetProfile profile, ProfileValues values)
    {
        // What is assumed of a variation, and why, nobody reads.
        var gaps = new Gaps();
        var typical = profile.Typical;
        var compiled = CompiledProfile.Of(profile);
        var varied = this;
        if (values.Surface is not null || values.Contents is not null)
        {
            var surface = RecordOverlay.Fill(record.Surface, values.Surface);
            varied = varied with { Surface = SurfacePart.Resolve(surface, record.Contents ?? values.Contents, compiled, typical, gaps) };
        }

        if (values.Mounting is not null)
            varied = varied with { Room = RoomPart.Resolve(RecordOverlay.Fill(record.Mounting, values.Mounting), typical.Mounting!, gaps) };
        if (values.Service is not null)
            varied = varied with { Service = ServicePart.Resolve(RecordOverlay.Fill(record.Service, values.Service), typical.Service, gaps) };
        if (values.Identity is not null)
            varied = varied with { Identity = IdentityPart.Resolve(RecordOverlay.Fill(record.Identity, values.Identity), typical.Identity, gaps) };
        // The years of sun follow the life, the usual site follows the setting.
        if (values.Environment is not null || varied.Service.LifeYears != Service.LifeYears)
        {
            var environment = RecordOverlay.Fill(record.Environment, values.Environment);
            varied = varied with { Surroundings = Surroundings.Resolve(environment, compiled, typical.Environment, varied.Service.LifeYears, gaps) };
        }

        var around = varied.Surroundings;
        if (values.Reading is not null || !ReferenceEquals(around.Setting, Surroundings.Setting) || around.Merge != Surroundings.Merge)
        {
            var reading = RecordOverlay.Fill(record.Reading, values.Reading);
            varied = varied with { Reading = ReadingPart.Resolve(reading, typical.Reading, around.Setting, around.Merge, gaps) };
        }

        return varied;
    }

    /// <summary>The parts put together.</summary>
    public ResolvedAsset ToAsset(AssetProfile profile) => new()
    {
        Profile = profile,
        Material = Surface.Material,
        Coating = Surface.Coating,
        CurvatureRadiusMm = Surface.CurvatureRadiusMm,
        ThicknessMm = Surface.ThicknessMm,
        Backing = Surface.Backing,
        LengthMm = Room.LengthMm,
        WidthMm = Room.WidthMm,
        MaxHeightMm = Room.MaxHeightMm,
        AllowDrilling = Room.AllowDrilling,
        Setting = Surroundings.Setting.Setting,
        TemperatureMinC = Surroundings.Temperatures.MinC,
        TemperatureMaxC = Surroundings.Temperatures.MaxC,
        PeakTemperatureC = Surroundings.Temperatures.PeakC,
        ApplicationTemperatureC = Surroundings.ApplicationTemperatureC,
        IpRequired = Surroundings.IpRequired,
        ImmersionM = Surroundings.ImmersionM,
        PressureWash = Surroundings.PressureWash,
        ImpactJ = Surroundings.ImpactJ,
        Abrasion = Surroundings.Abrasion,
        Flexing = Surroundings.Flexing,
        Chemicals = Surroundings.Chemicals,
        UvYears = Surroundings.UvYears,
        SterilisationCycles = Surroundings.SterilisationCycles,
        LaundryCycles = Surroundings.LaundryCycles,
        HazardousArea = Surroundings.HazardousArea,
        TamperRisk = Surroundings.TamperRisk,
        FoodContact = Surroundings.FoodContact,
        NeedsPrint = NeedsPrint,
        EpcBits = Identity.EpcBits,
        UserMemoryBits = Identity.UserMemoryBits,
        AccessPassword = Identity.AccessPassword,
        RequiredRangeM = Reading.RequiredRangeM,
        RequiredProbability = Reading.RequiredProbability,
        Reading = Reading.Situation,
        LifeYears = Service.LifeYears,
        SweepsPerYear = Service.SweepsPerYear,
        Currency = Service.Money.Currency,
        LabourRatePerHour = Service.Money.LabourRatePerHour,
        PriceFactor = Service.Money.PriceFactor,
        VisitMinutes = Service.VisitMinutes,
        DiscountRate = Service.DiscountRate,
    };
}
