using CsCheck;
using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;
using TagService.Domain.Surfaces;

namespace TagService.Domain.Tests.Profiles;

/// <summary>Random partial records: nothing throws, and every field is either given or listed as assumed.</summary>
public sealed class RandomRecordTests
{
    private static readonly Gen<string?> Text = Gen.OneOf(
        Gen.Const((string?)null),
        OneOf([.. AssetProfiles.Table.All.SelectMany(p => p.Words.Values.SelectMany(w => w))]).Select(s => (string?)s),
        OneOf([.. Materials.Table.All.SelectMany(m => m.Synonyms)]).Select(s => (string?)s),
        Gen.String[0, 80].Select(s => (string?)s));

    private static Gen<T> OneOf<T>(T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static Gen<double?> Maybe(double low, double high) =>
        Gen.OneOf(Gen.Const((double?)null), Gen.Double[low, high].Select(d => (double?)d));

    private static Gen<T?> Maybe<T>(params T[] values)
        where T : struct => Gen.OneOf(Gen.Const((T?)null), OneOf(values).Select(v => (T?)v));

    private static readonly Gen<AssetRecord> Record =
        from category in Text
        from description in Text
        from material in Text
        from coating in Text
        from contents in Text
        from radius in Maybe(0, 500)
        from length in Maybe(1, 500)
        from width in Maybe(1, 500)
        from setting in Maybe(Enum.GetValues<Setting>())
        from max in Maybe(-200, 400)
        from min in Maybe(-200, 400)
        from wash in Maybe(true, false)
        from flexing in Maybe(Enum.GetValues<Level>())
        from reader in Maybe(Enum.GetValues<ReaderKind>())
        from region in Text
        from life in Maybe(0.05, 100)
        from attribute in Text
        select new AssetRecord
        {
            Category = category,
            Description = description,
            Contents = contents,
            Surface = new() { Material = material, Coating = coating, CurvatureRadiusMm = radius },
            Mounting = new() { LengthMm = length, WidthMm = width },
            Environment = new() { Setting = setting, TemperatureMinC = min, TemperatureMaxC = max, PressureWash = wash, Flexing = flexing },
            Reading = new() { ReaderKind = reader, Region = region },
            Service = new() { LifeYears = life },
            Attributes = attribute is null ? new Dictionary<string, string>() : new Dictionary<string, string> { ["type"] = attribute },
        };

    [Fact]
    public void Resolve_RandomRecords_GivesOrAssumesEveryField() => Record.Sample(r =>
    {
        var resolution = ProfileResolution.Resolve(r);
        var assumed = resolution.Assumptions.ToDictionary(a => a.Pointer);
        var a = resolution.Asset;
        Expect(r.Surface!.CurvatureRadiusMm, a.CurvatureRadiusMm, "/surface/curvatureRadiusMm");
        Expect(r.Environment!.TemperatureMinC, a.TemperatureMinC, "/environment/temperatureMinC");
        Expect(r.Environment.TemperatureMaxC, a.TemperatureMaxC, "/environment/temperatureMaxC");
        Expect(r.Environment.Setting, a.Setting, "/environment/setting");
        Expect(r.Environment.PressureWash, a.PressureWash, "/environment/pressureWash");
        Expect(r.Environment.Flexing, a.Flexing, "/environment/flexing");
        Expect(r.Reading!.ReaderKind, a.Reading.Reader.Kind, "/reading/readerKind");
        Expect(r.Service!.LifeYears, a.LifeYears, "/service/lifeYears");
        Assert.Equal(r.Surface.Material is { } m && Materials.Find(m) is not null, !assumed.ContainsKey("/surface/material"));
        Assert.Equal(r.Mounting!.LengthMm is not null, !assumed.ContainsKey("/mounting/lengthMm"));
        // All other fields of the record were left out, so all are listed; needsPrint and contents have no field of their own there.
        Assert.Contains("/service/discountRate", assumed.Keys);
        Assert.Contains("/reading/looks", assumed.Keys);
        Assert.InRange(assumed.Count, ResolvedFields.Count - 13, ResolvedFields.Count);
        Assert.All(resolution.Assumptions, x =>
        {
            Assert.InRange(x.Confidence, 0, 1);
            Assert.False(string.IsNullOrWhiteSpace(x.Assumed) || string.IsNullOrWhiteSpace(x.Because), x.Pointer);
        });
        Assert.True(a.LengthMm >= a.WidthMm && a.PeakTemperatureC >= a.TemperatureMaxC && a.UvYears <= a.LifeYears + 1e-9);
        Assert.InRange(resolution.Match.Confidence, 0, 1);
        Assert.Equal(resolution.Match.Confidence == 0, ReferenceEquals(resolution.Match.Profile, AssetProfiles.Unknown));

        void Expect<T>(T? given, T resolved, string pointer)
            where T : struct
        {
            Assert.Equal(given is null, assumed.ContainsKey(pointer));
            Assert.Equal(given ?? resolved, resolved);
        }
    }, iter: 3000);

    [Fact]
    public void Find_RandomText_NeverThrowsInAnyTable() => Gen.String[0, 2000].Sample(
        text =>
        {
            _ = Materials.Find(text);
            _ = Coatings.Find(text);
            Assert.Equal(3, Materials.Nearest(text, 3).Count);
            _ = AttributeKey.MeaningOf(text);
        },
        iter: 200);
}
