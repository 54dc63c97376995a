using System.Runtime.InteropServices;
using Npgsql;
using TagService.LocalDatabase;

namespace TagService.Service.Tests.LocalDatabase;

/// <summary>
/// The entry point of this assembly when a test starts it as a process of its own: opens the private database, prints its
/// connection string, and closes it at Ctrl-C or when its standard input ends. Arguments: the folder, or "-" for
/// the default, and the folder of the PostgreSQL programs.
/// </summary>
internal static class PrivateDatabaseOwner
{
    public static async Task<int> Main(string[] args)
    {
        using var stop = new CancellationTokenSource();
        using var interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, context =>
        {
            context.Cancel = true;
            stop.Cancel();
        });

        try
        {
            var options = new PrivateDatabaseOptions { Folder = args[0] == "-" ? null : args[0], BinFolder = args[1] };
            await using var database = await PrivateDatabase.OpenAsync(options, Console.WriteLine, stop.Token);
            await Console.Out.WriteLineAsync($"OPEN {database.ConnectionString}");

            await Task.WhenAny(Task.Run(Console.In.ReadToEnd), Task.Delay(Timeout.Infinite, stop.Token));

            // What a service does while it shuts down: the database must still be there.
            await using var source = NpgsqlDataSource.Create(database.ConnectionString);
            await using var command = source.CreateCommand("select 'still there'");
            await Console.Out.WriteLineAsync($"CLOSING {await command.ExecuteScalarAsync()}");
        }
        catch (StartupProblemException problem)
        {
            await Console.Out.WriteLineAsync($"PROBLEM {problem.Problem}\nREMEDY {problem.Remedy}");
            return 1;
        }

        await Console.Out.WriteLineAsync("CLOSED");
        return 0;
    }
}
