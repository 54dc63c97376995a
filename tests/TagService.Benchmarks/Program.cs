using System.Globalization;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Running;
using TagService.Benchmarks.Assets;
using TagService.Benchmarks.Attachments;
using TagService.Benchmarks.Load;
using TagService.Benchmarks.Registers;

switch (args)
{
    case ["load", .. var lines]:
        await LoadCommand.RunAsync(
            Path.Combine(AppContext.BaseDirectory, "TagService.dll"),
            lines is [var count] ? int.Parse(count, CultureInfo.InvariantCulture) : 50_000);
        break;
    case ["growth", .. var requests]:
        await LoadCommand.GrowthAsync(
            Path.Combine(AppContext.BaseDirectory, "TagService.dll"),
            requests is [var many] ? int.Parse(many, CultureInfo.InvariantCulture) : 1_000_000);
        break;
    case ["assets", "idle", .. var idle]:
        await AssetsCommand.IdleAsync(idle is [var stored] ? int.Parse(stored, CultureInfo.InvariantCulture) : 1_000_000);
        break;
    case ["assets", .. var rows]:
        await AssetsCommand.LoadAsync(rows is [var number] ? int.Parse(number, CultureInfo.InvariantCulture) : 200_000);
        break;
    case ["attachments", .. var sizes]:
        await AttachmentsCommand.RunAsync(
            Path.Combine(AppContext.BaseDirectory, "TagService.dll"),
            sizes is [var most, ..] ? int.Parse(most, CultureInfo.InvariantCulture) : 200_000,
            sizes is [_, var batch] ? int.Parse(batch, CultureInfo.InvariantCulture) : 200_000);
        break;
    case ["registers", .. var listed]:
        await RegistersCommand.RunAsync(listed is [var assets] ? int.Parse(assets, CultureInfo.InvariantCulture) : 200_000);
        break;
    case ["floor", var port, var folder]:
        await FloorServer.RunAsync(int.Parse(port, CultureInfo.InvariantCulture), folder);
        break;
    default:
        BenchmarkSwitcher.FromAssembly(typeof(LoadCommand).Assembly)
            .Run(args, DefaultConfig.Instance.WithArtifactsPath(Path.Combine(".artifacts", "benchmarks")));
        break;
}
