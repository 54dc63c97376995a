using System.Text.Json;
using TagService.Intake.Registers;

namespace TagService.Worker.Registers;

/// <summary>Which failures of a source pass by themselves, and how long to wait for that.</summary>
internal static class SourceFaults
{
    // Beside the retries of single requests, which take some minutes.
    private static readonly TimeSpan[] Pauses =
        [TimeSpan.FromMinutes(1), TimeSpan.FromMinutes(2), TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(15), TimeSpan.FromMinutes(30), TimeSpan.FromHours(1), TimeSpan.FromHours(2)];

    /// <summary>The fault as a stable word.</summary>
    public static string CodeOf(RegisterFault fault) => JsonNamingPolicy.KebabCaseLower.ConvertName(fault.ToString());

    /// <summary>May it be over later without anybody doing something?</summary>
    public static bool MayPass(RegisterFault fault) => fault is
        RegisterFault.Unreachable or RegisterFault.TimedOut or RegisterFault.Throttled or RegisterFault.CircuitOpen or RegisterFault.SourceFailed
        or RegisterFault.Truncated or RegisterFault.Malformed or RegisterFault.StillBeingWritten or RegisterFault.Changed;

    /// <summary>How long to wait after so many failures in a row; null: no longer.</summary>
    public static TimeSpan? PauseAfter(int failures) => failures < Pauses.Length ? Pauses[failures] : null;
}
