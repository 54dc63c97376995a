using Npgsql;
using TagService.LocalDatabase;

namespace TagService.Hosting;

/// <summary>From the arguments to a verb; from an expected problem to two plain lines and exit code 1.</summary>
public static class CommandLine
{
    private const string Accepted = "Accepted: no verb (run the service), migrate, demo, help.";

    /// <summary>Runs the program.</summary>
    /// <returns>Exit code: 0 done, 1 a problem that was explained, 130 interrupted before the service ran.</returns>
    public static async Task<int> RunAsync(string[] args)
    {
        using var stop = new StopSignals();
        try
        {
            var (verb, options) = Split(args);
            switch (verb)
            {
                case null:
                    await RunVerb.RunAsync(options, stop.Token);
                    return 0;
                case "migrate":
                    await MigrateVerb.RunAsync(options, Console.Out.WriteLine, stop.Token);
                    return 0;
                case "demo":
                    await DemoVerb.RunAsync(options, Console.Out.WriteLine, stop.Token);
                    return 0;
                case "help":
                    Console.Out.Write(HelpText.All);
                    return 0;
                default:
                    throw new StartupProblemException($"There is no verb \"{verb}\".", Accepted);
            }
        }
        catch (StartupProblemException problem)
        {
            return Explain(problem.Problem, problem.Remedy);
        }
        catch (NpgsqlException e)
        {
            // What is sent while the database is being prepared; without values of rows.
            var reason = e is PostgresException p ? $"{p.MessageText} (SQLSTATE {p.SqlState})" : (e.InnerException ?? e).Message;
            return Explain(
                $"The database refused: {reason}", "Check the database and the rights of its user, then start again; nothing is left half done.");
        }
        catch (OperationCanceledException) when (stop.Token.IsCancellationRequested)
        {
            Console.Error.WriteLine("Stopped before the service was running.");
            return 130;
        }
    }

    /// <summary>Separates the verb from the options and refuses what is neither.</summary>
    internal static (string? Verb, string[] Options) Split(string[] args)
    {
        if (args is ["--help" or "-h" or "-?", ..])
            return ("help", []);
        var hasVerb = args.Length > 0 && !args[0].StartsWith('-');
        string[] options = hasVerb ? args[1..] : args;
        for (var i = 0; i < options.Length; i++)
        {
            if (!options[i].StartsWith("--", StringComparison.Ordinal))
                throw new StartupProblemException(
                    $"\"{options[i]}\" is not an option.", "Options are written --name value or --name=value, after the verb; the verb help lists them.");
            var assign = options[i].IndexOf('=', StringComparison.Ordinal);
            var name = assign < 0 ? options[i][2..] : options[i][2..assign];
            if (!KnownSettings.Accepts(name))
                throw new StartupProblemException($"There is no option --{name}.", $"Accepted: {KnownSettings.Names}.");
            if (assign < 0 && ++i == options.Length)
                throw new StartupProblemException($"Option --{name} has no value.", $"Write --{name} value or --{name}=value.");
        }

        return (hasVerb ? args[0] : null, options);
    }

    private static int Explain(string problem, string remedy)
    {
        Console.Error.WriteLine(OneLine(problem));
        Console.Error.WriteLine(OneLine(remedy));
        return 1;
    }

    private static string OneLine(string text) => text.ReplaceLineEndings(" ");
}
