namespace TagService.LocalDatabase;

/// <summary>
/// An expected failure at start-up, which the person at the console can put right. It is shown as two plain lines, what
/// happened and what to do, without a stack trace.
/// </summary>
public sealed class StartupProblemException(string problem, string remedy) : Exception(problem)
{
    public string Problem => Message;

    public string Remedy { get; } = remedy;
}
