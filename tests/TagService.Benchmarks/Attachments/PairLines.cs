using System.Globalization;
using System.Text;
using Npgsql;
using NpgsqlTypes;

namespace TagService.Benchmarks.Attachments;

/// <summary>One invented pair for each asset, as lines of a batch and as rows of a plain COPY.</summary>
internal sealed class PairLines(string[] assetIds)
{
    private static readonly DateTimeOffset First = new(2024, 1, 1, 0, 0, 0, TimeSpan.Zero);

    public int Count => assetIds.Length;

    /// <summary>The lines as NDJSON, made while they are sent.</summary>
    /// <param name="withCheck">Each with a check that counts as a measured range where the asset's record names its material.</param>
    public IEnumerable<byte[]> Ndjson(bool withCheck) => assetIds.Select((asset, i) => Encoding.UTF8.GetBytes(string.Create(CultureInfo.InvariantCulture, $$"""
        {"identity":"{{Identity(i)}}","assetId":"{{asset}}","tagClassId":"hard-metal-mount-large","attachmentMethod":"screws","startAt":"{{Start(i):yyyy-MM-ddTHH:mm:ssZ}}","labourMinutes":6.5{{(withCheck ? ",\"answeredAtM\":2,\"checkEirpDbm\":25" : "")}}}

        """)));

    /// <summary>The same as CSV.</summary>
    public IEnumerable<byte[]> Csv() => assetIds
        .Select((asset, i) => Encoding.UTF8.GetBytes(string.Create(
            CultureInfo.InvariantCulture, $"{Identity(i)},\"{asset}\",hard-metal-mount-large,screws,{Start(i):yyyy-MM-ddTHH:mm:ssZ},6.5\r\n")))
        .Prepend("identity,assetId,tagClassId,attachmentMethod,startAt,labourMinutes\r\n"u8.ToArray());

    /// <summary>One binary COPY of the same rows into the table plain, and nothing else.</summary>
    public async Task CopyAsync(NpgsqlDataSource database)
    {
        await using var connection = await database.OpenConnectionAsync();
        await using var copy = await connection.BeginBinaryImportAsync(
            "COPY plain (tag_id, id, asset_id, tag_class_id, method_id, start_not_before, start_not_after, is_void, taken_over, recorded_at, labour_minutes) FROM STDIN (FORMAT BINARY)");
        for (var i = 0; i < Count; i++)
        {
            await copy.StartRowAsync();
            await copy.WriteAsync((long)i, NpgsqlDbType.Bigint);
            await copy.WriteAsync(Guid.CreateVersion7(First.AddSeconds(i)), NpgsqlDbType.Uuid);
            foreach (var text in new[] { assetIds[i], "hard-metal-mount-large", "screws" })
                await copy.WriteAsync(text, NpgsqlDbType.Text);
            await copy.WriteAsync(Start(i), NpgsqlDbType.TimestampTz);
            await copy.WriteAsync(Start(i), NpgsqlDbType.TimestampTz);
            await copy.WriteAsync(false, NpgsqlDbType.Boolean);
            await copy.WriteAsync(false, NpgsqlDbType.Boolean);
            await copy.WriteAsync(First, NpgsqlDbType.TimestampTz);
            await copy.WriteAsync(6.5, NpgsqlDbType.Double);
        }

        if (await copy.CompleteAsync() != (ulong)Count)
            throw new InvalidOperationException("COPY kept another number of rows than were sent.");
    }

    // GIAI-96 under GS1's example prefix 9521141.
    private static string Identity(int i) => string.Create(CultureInfo.InvariantCulture, $"3476451F{0xD400010000000000UL + (uint)i:X16}");

    private static DateTimeOffset Start(int i) => First.AddMinutes(i % 400_000);
}
