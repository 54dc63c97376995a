using System.Diagnostics;
using System.Runtime.InteropServices;

namespace TagService.Service.Tests.LocalDatabase;

/// <summary>Runs <see cref="PrivateDatabaseOwner"/> in a process (and process group) of its own, if wanted under another account.</summary>
internal sealed class OwnerProcess : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);

    private readonly Process process;
    private readonly TemporaryFolder programs;

    private OwnerProcess(Process process, TemporaryFolder programs)
    {
        this.process = process;
        this.programs = programs;
    }

    public int Id => process.Id;

    /// <summary>The accounts that this test run can start processes under: its own and, as root, an ordinary one.</summary>
    public static TheoryData<string> Accounts => Environment.IsPrivilegedProcess ? ["root", "nobody"] : [Environment.UserName];

    public static OwnerProcess Start(string folder, string bin, string? account = null, string? home = null)
    {
        // A copy, because the build's folder need not be open to the other account.
        var programs = new TemporaryFolder();
        foreach (var file in Directory.EnumerateFiles(AppContext.BaseDirectory))
            File.Copy(file, programs.Below(Path.GetFileName(file)));

        var dotnet = Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "../../../dotnet"));
        string[] words = [dotnet, programs.Below("TagService.Service.Tests.dll"), folder, bin];
        if (account is not null && account != Environment.UserName)
            words = ["setpriv", $"--reuid={account}", $"--regid={account switch { "nobody" => "65534", _ => account }}", "--clear-groups", .. words];

        // A group of its own, as a shell gives to what it starts, so that a signal can be sent to the whole group.
        words = ["setsid", .. words];
        var start = new ProcessStartInfo(words[0], words.Skip(1))
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            WorkingDirectory = "/",
        };
        start.Environment["DOTNET_CLI_HOME"] = programs.Path;
        if (home is not null)
        {
            start.Environment["HOME"] = home;
            start.Environment.Remove("XDG_DATA_HOME");
        }

        return new OwnerProcess(Process.Start(start)!, programs);
    }

    /// <summary>The rest of the next line that begins with the word; fails if the output ends before.</summary>
    public async Task<string> ReadAsync(string word)
    {
        using var timeout = new CancellationTokenSource(Patience);
        var seen = "";
        while (await process.StandardOutput.ReadLineAsync(timeout.Token) is { } line)
        {
            if (line.StartsWith(word + " ", StringComparison.Ordinal) || line == word)
                return line[word.Length..].Trim();
            seen += line + "\n";
        }

        throw new InvalidOperationException($"No line {word}, but:\n{seen}");
    }

    /// <summary>What Ctrl-C at a terminal does: the signal goes to every process of the group.</summary>
    public void InterruptGroup()
    {
        using var kill = Process.Start("kill", ["-INT", "--", $"-{process.Id}"]);
        kill.WaitForExit();
    }

    public async Task<int> CloseAsync()
    {
        process.StandardInput.Close();
        using var timeout = new CancellationTokenSource(Patience);
        await process.WaitForExitAsync(timeout.Token);
        return process.ExitCode;
    }

    /// <summary>Ends the process the hard way, as a crash or the operating system's memory killer does.</summary>
    public async Task KillAsync()
    {
        process.Kill(entireProcessTree: false);
        await process.WaitForExitAsync();
    }

    public async ValueTask DisposeAsync()
    {
        // In order, where the test has not ended it yet: a killed owner would leave its server running.
        if (!process.HasExited)
            await CloseAsync();
        process.Dispose();
        programs.Dispose();
    }
}
