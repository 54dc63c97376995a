namespace TagService.Intake.Registers;

/// <summary>
/// A place in a source, opaque to everybody but its reader. Holds no credential; it can hold an address that the source gave for its
/// next page, so it is stored but not shown.
/// </summary>
/// <param name="Token">Text to store, some kilobytes at most.</param>
public readonly record struct RegisterPosition(string Token);
