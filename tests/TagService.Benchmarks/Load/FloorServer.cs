using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.Logging;

namespace TagService.Benchmarks.Load;

/// <summary>
/// The floor of a comparison: a minimal API on the same server that reads the same body and writes the same number of
/// bytes, and does nothing else. Answers are read from a folder, one file a request, chosen by the path.
/// </summary>
internal static class FloorServer
{
    public static async Task RunAsync(int port, string folder)
    {
        var answers = Directory.GetFiles(folder, "*.answer").Order(StringComparer.Ordinal).Select(File.ReadAllBytes).ToArray();
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls($"http://127.0.0.1:{port}");
        var app = builder.Build();
        app.MapPost("/floor/{index:int}", async (int index, Microsoft.AspNetCore.Http.HttpContext http) =>
        {
            while (true)
            {
                var read = await http.Request.BodyReader.ReadAsync();
                http.Request.BodyReader.AdvanceTo(read.Buffer.End);
                if (read.IsCompleted)
                    break;
            }

            var answer = answers[index];
            http.Response.ContentType = "application/json";
            http.Response.ContentLength = answer.Length;
            await http.Response.BodyWriter.WriteAsync(answer);
        });
        await app.RunAsync();
    }
}
