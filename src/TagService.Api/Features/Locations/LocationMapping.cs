using TagService.Domain.Recommendations;
using TagService.Storage.Tables;

namespace TagService.Api.Features.Locations;

/// <summary>From the tables to the wire.</summary>
internal static class LocationMapping
{
    // Invented.
    public static LocationResponse Example { get; } = new(
        "harquith-pump-hall", "Pump hall", "harquith", ["Harquith Water Treatment Works / Pump hall", "HQ-PH"], Setting.Plant, null,
        new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero));

    public static LocationResponse ToResponse(this LocationRow row) =>
        new(row.Id, row.Name, row.ParentId, row.Aliases, row.Setting, row.Note, row.UpdatedAt);
}
