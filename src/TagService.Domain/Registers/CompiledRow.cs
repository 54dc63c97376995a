using System.Collections.Frozen;

namespace TagService.Domain.Registers;

/// <summary>A mapping row with its names resolved.</summary>
/// <param name="Row">As written.</param>
/// <param name="Target">Its field.</param>
/// <param name="Unit">Unit of values that carry none.</param>
/// <param name="IsDate">Values are dates.</param>
/// <param name="Table">The value table by folded words.</param>
/// <param name="Default">The default, read.</param>
internal sealed record CompiledRow(
    MappingRow Row, MappingTarget Target, RegisterUnit? Unit, bool IsDate, FrozenDictionary<string, string> Table, object? Default);

/// <summary>What reading a value came to: a value, or why not.</summary>
/// <param name="Value">Text, double, int, bool or list of texts.</param>
/// <param name="Currency">Currency that came with an amount.</param>
/// <param name="Unknown">Items that no table knows.</param>
/// <param name="Error">Why it was not understood; then there is no value.</param>
internal readonly record struct ReadValue(object? Value, string? Currency = null, IReadOnlyList<string>? Unknown = null, string? Error = null)
{
    public static ReadValue Not(string error) => new(null, Error: error);
}
