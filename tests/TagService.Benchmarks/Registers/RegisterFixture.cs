using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using TagService.Benchmarks.Assets;
using TagService.Domain.Registers;
using TagService.Intake.Registers;
using TagService.Intake.Registers.Http;

namespace TagService.Benchmarks.Registers;

/// <summary>One invented register that is a file and a server at once, in two states: before and after some rows have changed.</summary>
internal sealed class RegisterFixture : IAsyncDisposable
{
    private const int PageSize = 1000;

    private readonly WebApplication _app;
    private readonly FleetRows[] _states;
    private readonly byte[][][] _pages;
    private readonly string _folder;
    private int _state;

    private RegisterFixture(WebApplication app, FleetRows[] states, string folder)
    {
        (_app, _states, _folder) = (app, states, folder);
        _pages = [.. states.Select(s => s.Rows.Chunk(PageSize).Select((rows, i) => PageOf(rows.Select(r => (r.Record.AssetId!, r.Record.Category, r.Record.Description, r.LocationName)), i)).ToArray())];
    }

    public int Changed => _states[1].Changed;

    public static async Task<RegisterFixture> StartAsync(int count, string folder)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseKestrel(o => o.Listen(IPAddress.Loopback, 0));
        var app = builder.Build();
        var fixture = new RegisterFixture(app, [FleetRows.Make(count, 0), FleetRows.Make(count, 100)], folder);
        app.Run(fixture.AnswerAsync);
        await app.StartAsync();
        return fixture;
    }

    /// <summary>Puts the register into one of its states, for both kinds of source.</summary>
    public void Set(int state)
    {
        _state = state;
        using var file = new StreamWriter(Path.Combine(_folder, "register.csv"), append: false, new UTF8Encoding(false));
        file.WriteLine("id,category,description,place");
        foreach (var (record, location) in _states[state].Rows)
            file.WriteLine($"{record.AssetId},{Quoted(record.Category)},{Quoted(record.Description)},{Quoted(location)}");
    }

    public RegisterSource Http() => new()
    {
        Http = new HttpRegisterOptions
        {
            Address = new(_app.Urls.Single()), RowsPointer = "/items", KeyPointer = "/id", Paging = HttpPaging.PageNumber, PageParameter = "page", TotalPointer = "/total", LastPage = LastPage.Total,
        },
        Mapping = Mapping,
    };

    public static RegisterSource Csv() => new()
    {
        Csv = new() { Folder = "drop", Pattern = "*.csv", KeyColumn = "id" },
        Mapping = Mapping,
    };

    public async ValueTask DisposeAsync()
    {
        await _app.StopAsync();
        await _app.DisposeAsync();
    }

    private static RegisterMapping Mapping { get; } = new()
    {
        Rows =
        [
            new() { Target = "/assetId", Source = "id" }, new() { Target = "/category", Source = "category" },
            new() { Target = "/description", Source = "description" }, new() { Target = "/location", Source = "place" },
        ],
    };

    private static string Quoted(string? text) => text is null ? "" : $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    private byte[] PageOf(IEnumerable<(string Id, string? Category, string? Description, string? Place)> rows, int page) => JsonSerializer.SerializeToUtf8Bytes(new
    {
        page,
        total = _states[0].Count,
        items = rows.Select(r => new { id = r.Id, category = r.Category, description = r.Description, place = r.Place }),
    });

    private async Task AnswerAsync(HttpContext context)
    {
        var page = int.Parse(context.Request.Query["page"].ToString(), CultureInfo.InvariantCulture);
        context.Response.ContentType = "application/json";
        await context.Response.Body.WriteAsync(_pages[_state][page - 1]);
    }
}
