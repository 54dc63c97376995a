using System.Globalization;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Storage;
using TagService.Storage.Corrections;

namespace TagService.Service.Tests.Registers;

/// <summary>Corrections beside the obvious way to find them: asset by asset, in memory. Everything is invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class RegisterCorrectionsModelTests(TestDatabase server)
{
    private const int Tags = 60;

    [Fact]
    public async Task Page_RandomFleets_AreWhatTheObviousWayFinds()
    {
        var kinds = new HashSet<CorrectionKind>();
        for (var seed = 1; seed <= 3; seed++)
        {
            await using var storage = await StorageServices.CreateMigratedAsync(server, $"corrections_{seed}");
            var random = new Random(seed);
            var assets = Enumerable.Range(0, 150).Select(i => Asset.Random(i, random)).ToList();
            var attachments = Attachments(assets, random);
            await LoadAsync(storage, assets, attachments);
            var expected = assets.OrderBy(a => a.Id, StringComparer.Ordinal).Select(a => (a.Id, Kind: Obvious(a, attachments))).Where(c => c.Kind is not null)
                .Select(c => (c.Id, Kind: c.Kind!.Value)).ToList();

            Assert.Equal(expected, await AllAsync(storage, null));
            foreach (var kind in Enum.GetValues<CorrectionKind>())
                Assert.Equal(expected.Where(c => c.Kind == kind), await AllAsync(storage, kind));
            kinds.UnionWith(expected.Select(c => c.Kind));
        }

        Assert.Equal(5, kinds.Count);
    }

    private static CorrectionKind? Obvious(Asset asset, List<Attached> attachments)
    {
        var isTold = asset.Source is "push" or "works";
        if (asset.IsRetired || (!isTold && asset.Source != "believed"))
            return null;
        var here = attachments.Where(a => a.AssetId == asset.Id).ToList();
        if (asset.Column is null)
            return isTold && here.Exists(a => a.IsOpen) ? CorrectionKind.Attach : null;
        if (asset.Tag is not { } tag)
            return CorrectionKind.UnreadableTag;
        if (here.Exists(a => a.IsOpen && a.Tag == tag))
            return null;
        if (isTold && here.Exists(a => a.IsOpen))
            return CorrectionKind.Replace;
        if (attachments.Exists(a => a.IsOpen && a.Tag == tag))
            return CorrectionKind.Conflict;
        return here.Exists(a => a.Tag == tag) && !here.Exists(a => a.IsOpen) ? CorrectionKind.End : null;
    }

    private static List<Attached> Attachments(List<Asset> assets, Random random)
    {
        var all = new List<Attached>();
        for (var tag = 0; tag < Tags; tag++)
        {
            for (var n = random.Next(5); n >= 0; n--)
            {
                // Often the asset whose column names the tag, so that both agree and disagree.
                var named = assets.Where(a => a.Tag == tag).ToList();
                var asset = named.Count > 0 && random.Next(2) == 0 ? named[random.Next(named.Count)] : assets[random.Next(assets.Count)];
                all.Add(new(asset.Id, tag, IsOpen: n == 0 && random.Next(2) > 0));
            }
        }

        return all;
    }

    private static string IdentityOf(int tag) => string.Create(CultureInfo.InvariantCulture, $"8004:9521141{tag + 1}");

    private static async Task LoadAsync(StorageServices storage, List<Asset> assets, List<Attached> attachments)
    {
        await storage.ScalarAsync(string.Create(
            CultureInfo.InvariantCulture, $"INSERT INTO tags (identity, first_recorded_at) SELECT '8004:9521141' || n, now() FROM generate_series(1, {Tags}) AS n"));
        foreach (var a in assets)
        {
            var (column, key) = (a.Column is { } c ? $"'{c}'" : "NULL", a.Tag is { } tag ? $"'{IdentityOf(tag)}'" : "NULL");
            await storage.ScalarAsync(
                $"INSERT INTO assets (asset_id, record, source, register_tag, register_tag_key, retired_at, first_seen_at, updated_at) VALUES ('{a.Id}', '{{\"assetId\":\"{a.Id}\"}}', "
                + $"'{a.Source}', {column}, {key}, {(a.IsRetired ? "now()" : "NULL")}, now(), now())");
        }

        foreach (var a in attachments)
        {
            await storage.ScalarAsync(
                "INSERT INTO attachments (tag_id, id, asset_id, recorded_at, is_void, taken_over, end_reason) "
                + $"SELECT id, gen_random_uuid(), '{a.AssetId}', now(), false, false, {(a.IsOpen ? "NULL" : "'not-known'")} FROM tags WHERE identity = '{IdentityOf(a.Tag)}'");
        }
    }

    private static async Task<List<(string Id, CorrectionKind Kind)>> AllAsync(StorageServices storage, CorrectionKind? kind)
    {
        var all = new List<(string, CorrectionKind)>();
        var filter = new CorrectionFilter { Told = ["push", "works"], Followed = ["believed"], Kind = kind };
        for (var after = ""; ;)
        {
            var page = await storage.Get<RegisterCorrections>().PageAsync(filter, after, 7, default);
            if (page.Count == 0)
                return all;
            all.AddRange(page.Select(c => (c.AssetId, c.Kind)));
            after = page[^1].AssetId;
        }
    }

    private sealed record Attached(string AssetId, int Tag, bool IsOpen);

    private sealed record Asset(string Id, string Source, string? Column, int? Tag, bool IsRetired)
    {
        public static Asset Random(int i, Random random)
        {
            string[] sources = ["push", "works", "believed", "unknown"];
            int? tag = random.Next(4) > 0 ? random.Next(Tags) : null;
            var column = tag is { } t ? IdentityOf(t) : random.Next(2) == 0 ? "sticker" : null;
            return new(string.Create(CultureInfo.InvariantCulture, $"{(i % 2 == 0 ? 'A' : 'b')}-{i}"), sources[random.Next(sources.Length)], column, tag, random.Next(10) == 0);
        }
    }
}
