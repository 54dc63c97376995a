using TagService.Intake.Registers;
using TagService.Intake.Registers.Http;
using TagService.Storage.Queries;
using TagService.Storage.Tables;

namespace TagService.Api.Features.RegisterSources;

/// <summary>An invented register of an invented utility.</summary>
internal static class RegisterSourceExamples
{
    public const string Name = "works-register";

    private static readonly DateTimeOffset Then = new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero);

    public static RegisterMappingRequest Mapping { get; } = new()
    {
        Rows =
        [
            new() { Target = "/assetId", Source = "/no" },
            new() { Target = "/category", Source = "/kind" },
            new() { Target = "/surface/material", Source = "/casing", ValueTable = new Dictionary<string, string> { ["GG"] = "cast iron" } },
            new() { Target = "/surface/thicknessMm", Source = "/wall", Unit = "mm" },
            new() { Target = "/location", Source = "/place" },
            new() { Target = "/tag", Source = "/tag" },
        ],
        NotKept = ["/keeper"],
    };

    public static RegisterSourceRequest Request { get; } = new()
    {
        Http = new()
        {
            Address = "https://register.example/assets", RowsPointer = "/items", KeyPointer = "/no", Paging = HttpPaging.Cursor, CursorPointer = "/next", CursorParameter = "cursor",
        },
        Mapping = Mapping, EveryMinutes = 1440,
    };

    public static RegisterSourceResponse Response { get; } = new StoredRegisterSource(
        new()
        {
            Name = Name, Settings = RegisterSourceJson.Write(RegisterSourceMapping.ToSource(Request)), SettingsHash = "", IsEnabled = true, EveryMinutes = Request.EveryMinutes,
            IsFromConfiguration = false, UpdatedAt = Then,
        },
        new()
        {
            SourceName = Name, State = RegisterSyncState.Done, RequestedBy = "schedule", RequestedAt = Then.AddHours(1), IsFullPass = true, AcceptsMissing = false,
            EndedAt = Then.AddHours(1).AddMinutes(2), Rows = 2412, Refused = 3,
        },
        2409).ToResponse();

    /// <summary>Two rows, the second with a value that nobody can mean.</summary>
    public const string RowsJson = """
        [{"no":"P-1","kind":"centrifugal pump","casing":"GG","wall":8,"place":"Harquith / Pump hall","tag":"","keeper":"-"},
         {"no":"P-2","kind":"centrifugal pump","casing":"GG","wall":"thick","place":"Harquith / Pump hall","tag":"","keeper":"-"}]
        """;
}
