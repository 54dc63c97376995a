using TagService.Domain.Places;
using TagService.Domain.Recommendations;
using TagService.Storage.Tables;

namespace TagService.Api.Features.ReadPoints;

/// <summary>From the wire to the tables and back.</summary>
internal static class ReadPointMapping
{
    // Invented, but for the identity: GS1 EPC Tag Data Standard 2.3 has this GIAI as an example.
    public static ReadPointRequest ExampleRequest { get; } = new()
    {
        Name = "Tool store, ceiling antenna 2", Kind = ReadPointKind.Area, LocationId = "harquith-tool-store", ReaderName = "rdr-014", Antenna = 2,
        Aliases = ["tool store ceiling"], EirpDbm = 33, ReaderKind = ReaderKind.Fixed, HeartbeatSeconds = 300,
        ReferenceTags = ["urn:epc:id:giai:9521141.12345400"],
    };

    public static ReadPointResponse Example { get; } = RowOf("harquith-tool-store-2", ExampleRequest, new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero)).ToResponse();

    public static void Apply(this ReadPointRow row, ReadPointRequest wanted)
    {
        row.Rename(wanted.Name, wanted.Aliases ?? []);
        (row.Kind, row.LocationId, row.ReaderName, row.Antenna) = (wanted.Kind, wanted.LocationId, wanted.ReaderName, wanted.Antenna);
        (row.EirpDbm, row.ReaderKind, row.HeartbeatSeconds) = (wanted.EirpDbm, wanted.ReaderKind, wanted.HeartbeatSeconds);
        row.SweepHours = wanted.SweepHours ?? (wanted.Kind.InfersSweeps() ? ReadPointKinds.DefaultSweepHours : null);
        row.ReferenceTags = [.. wanted.ReferenceTags ?? []];
        row.Note = wanted.Note;
    }

    public static ReadPointRow RowOf(string id, ReadPointRequest wanted, DateTimeOffset now)
    {
        var row = new ReadPointRow { Id = id, Kind = wanted.Kind, LocationId = wanted.LocationId, UpdatedAt = now };
        row.Apply(wanted);
        return row;
    }

    public static ReadPointResponse ToResponse(this ReadPointRow row) => new(
        row.Id, row.Name, row.Kind, row.LocationId, row.ReaderName, row.Antenna, row.Aliases, row.EirpDbm, row.ReaderKind, row.HeartbeatSeconds,
        row.ReferenceTags, row.SweepHours, row.Note, row.UpdatedAt);
}
