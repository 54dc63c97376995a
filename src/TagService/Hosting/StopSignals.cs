using System.Runtime.InteropServices;

namespace TagService.Hosting;

/// <summary>Ctrl+C and SIGTERM as one cancellation token, from the first line of the program on.</summary>
internal sealed class StopSignals : IDisposable
{
    private readonly CancellationTokenSource _source = new();
    private readonly PosixSignalRegistration[] _registrations;

    public StopSignals() => _registrations =
        [.. ((PosixSignal[])[PosixSignal.SIGINT, PosixSignal.SIGTERM, PosixSignal.SIGQUIT]).Select(s => PosixSignalRegistration.Create(s, Stop))];

    public CancellationToken Token => _source.Token;

    public void Dispose()
    {
        foreach (var registration in _registrations)
            registration.Dispose();
        _source.Dispose();
    }

    private void Stop(PosixSignalContext context)
    {
        // We end ourselves, in order: requests, jobs, then the database.
        context.Cancel = true;
        _source.Cancel();
    }
}
