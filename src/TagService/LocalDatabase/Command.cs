using System.Diagnostics;

namespace TagService.LocalDatabase;

/// <summary>How a program ended, with everything it printed.</summary>
internal sealed record CommandResult(int ExitCode, string Output)
{
    public bool Succeeded => ExitCode == 0;
}

/// <summary>Runs one of the small programs around the server (initdb, pg_ctl, chown ...) to its end.</summary>
internal static class Command
{
    public static async Task<CommandResult> RunAsync(IReadOnlyList<string> words, CancellationToken cancellationToken)
    {
        var start = new ProcessStartInfo(words[0], words.Skip(1))
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
            // The account that runs the server may not be allowed into our current folder.
            WorkingDirectory = Path.GetPathRoot(Environment.SystemDirectory) is { Length: > 0 } root ? root : "/",
        };
        // The messages are searched and shown: in one language.
        start.Environment["LC_ALL"] = "C";
        start.Environment.Remove("PGDATA");
        start.Environment.Remove("PGPORT");
        start.Environment.Remove("PGOPTIONS");

        using var process = new Process { StartInfo = start };
        try
        {
            process.Start();
        }
        catch (System.ComponentModel.Win32Exception exception)
        {
            return new CommandResult(-1, $"{words[0]}: {exception.Message}");
        }

        process.StandardInput.Close();
        var output = process.StandardOutput.ReadToEndAsync(CancellationToken.None);
        var errors = process.StandardError.ReadToEndAsync(CancellationToken.None);
        try
        {
            await process.WaitForExitAsync(cancellationToken);
        }
        catch (OperationCanceledException)
        {
            process.Kill(entireProcessTree: false);
            throw;
        }

        // A server started by this program may have inherited the pipes and keep them open: do not wait for their end.
        await Task.WhenAny(Task.WhenAll(output, errors), Task.Delay(TimeSpan.FromSeconds(2), CancellationToken.None));
        return new CommandResult(process.ExitCode, Text(output) + Text(errors));
    }

    private static string Text(Task<string> read) => read.IsCompletedSuccessfully ? read.Result : "";
}
