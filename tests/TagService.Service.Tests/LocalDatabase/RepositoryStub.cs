using System.Collections.Concurrent;
using System.Diagnostics;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using MysticMind.PostgresEmbed;

namespace TagService.Service.Tests.LocalDatabase;

/// <summary>
/// Stands for a Maven repository: a version list, a jar with a .txz in it, and its SHA-256, in the layout in which the
/// PostgreSQL programs are published (https://maven.apache.org/repository/layout.html). The programs inside are the ones
/// installed on this machine.
/// </summary>
internal sealed class RepositoryStub : IAsyncDisposable
{
    private static readonly ConcurrentDictionary<string, Task<byte[]>> Jars = new();

    private readonly WebApplication application;

    private RepositoryStub(WebApplication application) => this.application = application;

    public string Address => application.Urls.Single();

    public ConcurrentQueue<string> Asked { get; } = new();

    public static async Task<RepositoryStub> StartAsync(string bin, string[] versions, bool wrongChecksum = false)
    {
        var jar = await Jars.GetOrAdd(bin, PackAsync);
        var checksum = Convert.ToHexStringLower(SHA256.HashData(wrongChecksum ? [.. jar, 0] : jar));
        var artifact = $"embedded-postgres-binaries-{PgPlatform.Detect().ArtifactName}";
        var metadata = $"<metadata><versioning><versions>{string.Concat(versions.Select(version => $"<version>{version}</version>"))}</versions></versioning></metadata>";

        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().UseUrls("http://127.0.0.1:0");
        var stub = new RepositoryStub(builder.Build());
        var folder = $"/maven2/io/zonky/test/postgres/{artifact}";
        stub.application.Run(async context =>
        {
            var path = context.Request.Path.Value!;
            stub.Asked.Enqueue(path);
            var jars = versions.Select(version => $"{folder}/{version}/{artifact}-{version}.jar").ToArray();
            if (path == $"{folder}/maven-metadata.xml")
                await context.Response.WriteAsync(metadata);
            else if (jars.Contains(path))
                await context.Response.Body.WriteAsync(jar);
            else if (jars.Contains(path.Replace(".sha256", "", StringComparison.Ordinal)))
                await context.Response.WriteAsync(checksum);
            else
                context.Response.StatusCode = StatusCodes.Status404NotFound;
        });
        await stub.application.StartAsync();
        return stub;
    }

    public ValueTask DisposeAsync() => application.DisposeAsync();

    private static async Task<byte[]> PackAsync(string bin)
    {
        using var folder = new TemporaryFolder();
        var archive = folder.Below("programs.txz");
        var install = Path.GetDirectoryName(bin)!;
        string[] words =
        [
            "-C", install, "--exclude=bitcode", "--exclude=llvmjit*", "-cJf", archive, "bin/initdb", "bin/pg_ctl", "bin/postgres",
            .. ((string[])["lib", "share"]).Where(part => install != "/usr" && Directory.Exists(Path.Combine(install, part))),
        ];
        var start = new ProcessStartInfo("tar", words);
        start.Environment["XZ_OPT"] = "-0";
        using var tar = Process.Start(start)!;
        await tar.WaitForExitAsync();
        Assert.Equal(0, tar.ExitCode);

        using var jar = new MemoryStream();
        using (var zip = new ZipArchive(jar, ZipArchiveMode.Create, leaveOpen: true, Encoding.UTF8))
            await zip.CreateEntryFromFileAsync(archive, "postgres.txz");
        return jar.ToArray();
    }
}
