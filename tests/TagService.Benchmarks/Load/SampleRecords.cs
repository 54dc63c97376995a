using System.Text.Json;
using TagService.Domain.Profiles;

namespace TagService.Benchmarks.Load;

/// <summary>At least two hundred different asset records, thin to full, from one seed. Invented.</summary>
internal static class SampleRecords
{
    private static readonly string[] Materials = ["steel", "aluminium", "abs", "pp", "wood", "glass", "stainless-steel"];
    private static readonly string[] Regions = ["DE", "US", "JP", "CN", "GB", "AU"];
    private static readonly string[] Sets = ["office", "workshop", "plant", "outdoor", "warehouse", "rough-site"];

    public static IReadOnlyList<byte[]> Make(int count, int seed)
    {
        var random = new Random(seed);
        var words = AssetProfiles.Table.All.SelectMany(p => p.Words.Values).Where(w => w.Count > 0).Select(w => w[0]).ToArray();
        var records = new List<byte[]>(count);
        for (var i = 0; i < count; i++)
        {
            var record = new Dictionary<string, object> { ["assetId"] = $"A-{i:00000}", ["category"] = words[random.Next(words.Length)] };
            if (random.Next(3) > 0)
                record["surface"] = new { material = Pick(Materials), thicknessMm = 1 + random.Next(6) };
            if (random.Next(3) > 0)
                record["mounting"] = new { lengthMm = 30 + random.Next(150), widthMm = 15 + random.Next(50), maxHeightMm = 1 + random.Next(15) };
            if (random.Next(2) > 0)
                record["environment"] = new { setting = Pick(Sets), temperatureMaxC = 30 + random.Next(60) };
            if (random.Next(2) > 0)
                record["reading"] = new { requiredRangeM = Math.Round(0.3 + (random.NextDouble() * 5), 2), region = Pick(Regions), readerKind = random.Next(4) > 0 ? "handheld" : "fixed" };
            if (random.Next(2) > 0)
                record["service"] = new { lifeYears = 2 + random.Next(15), sweepsPerYear = 1 + random.Next(12), visitMinutes = 5 + random.Next(60) };
            records.Add(JsonSerializer.SerializeToUtf8Bytes(record));

            string Pick(string[] from) => from[random.Next(from.Length)];
        }

        return records;
    }
}
