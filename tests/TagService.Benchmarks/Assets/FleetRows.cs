using TagService.Demo;
using TagService.Storage;
using TagService.Storage.Bulk;

namespace TagService.Benchmarks.Assets;

/// <summary>The invented demo fleet, repeated under other numbers until there are enough.</summary>
internal sealed class FleetRows
{
    private readonly AssetToLoad[] _rows;

    private FleetRows(AssetToLoad[] rows, int changed)
    {
        (_rows, Changed) = (rows, changed);
        Json = [.. rows.Select(r => AssetRecordJson.Write(r.Record))];
    }

    public int Count => _rows.Length;

    /// <summary>Rows that differ from the fleet without changes.</summary>
    public int Changed { get; }

    /// <summary>As a register would give them: one after another.</summary>
    public IAsyncEnumerable<AssetToLoad> Assets => _rows.ToAsyncEnumerable();

    public IReadOnlyList<AssetToLoad> Rows => _rows;

    /// <summary>The records as text, so that the plain COPY has nothing to do but copy.</summary>
    public string[] Json { get; }

    /// <summary>Rows that came from somewhere else.</summary>
    public static FleetRows Of(AssetToLoad[] rows) => new(rows, 0);

    public static FleetRows Make(int count, int changedEvery)
    {
        var fleet = DemoFleet.Generate();
        var rows = new AssetToLoad[count];
        var changed = 0;
        for (var i = 0; i < count; i++)
        {
            var (record, location) = fleet[i % fleet.Count];
            record = record with { AssetId = $"{record.AssetId}-{i / fleet.Count:000}" };
            if (changedEvery > 0 && i % changedEvery == 0)
            {
                record = record with { Description = $"{record.Description} overhauled" };
                changed++;
            }

            rows[i] = new(record, location);
        }

        return new(rows, changed);
    }
}
