using System.Globalization;
using System.Text;
using System.Text.Json;
using TagService.Domain.Registers;

namespace TagService.Intake.Registers.Http;

/// <summary>Follows where in a document a reader is, and picks up plain values at given places.</summary>
/// <param name="rowsPointer">JSON pointer of the array of rows.</param>
/// <param name="picked">JSON pointers of plain values to keep.</param>
internal sealed class JsonPlace(string rowsPointer, IEnumerable<string> picked)
{
    private readonly HashSet<string> _wanted = [.. picked];
    private readonly Stack<Frame> _frames = [];
    private string _name = "";

    /// <summary>The next token is a row, or the end of the array of rows.</summary>
    public bool IsAmongRows => _frames.TryPeek(out var top) && top.IsRows;

    /// <summary>There was an array where the rows should be.</summary>
    public bool FoundRows { get; private set; }

    /// <summary>What was picked up; null for JSON null.</summary>
    public Dictionary<string, string?> Picked { get; } = [];

    /// <summary>Takes note of the token the reader stands on.</summary>
    public void Pass(ref Utf8JsonReader reader)
    {
        switch (reader.TokenType)
        {
            case JsonTokenType.PropertyName:
                _name = reader.GetString()!;
                break;
            case JsonTokenType.StartObject:
                _frames.Push(new(NextPointer(), false, false));
                break;
            case JsonTokenType.StartArray:
                var pointer = NextPointer();
                var isRows = !FoundRows && pointer == rowsPointer;
                FoundRows |= isRows;
                _frames.Push(new(pointer, true, isRows));
                break;
            case JsonTokenType.EndObject or JsonTokenType.EndArray:
                _frames.Pop();
                break;
            default:
                if (NextPointer() is var at && _wanted.Contains(at))
                    Picked[at] = Plain(ref reader);
                break;
        }
    }

    private string NextPointer()
    {
        if (!_frames.TryPeek(out var top))
            return "";
        return $"{top.Pointer}/{(top.IsArray ? (top.Next++).ToString(CultureInfo.InvariantCulture) : JsonPointers.Escape(_name))}";
    }

    private static string? Plain(ref Utf8JsonReader reader) => reader.TokenType switch
    {
        JsonTokenType.Null => null,
        JsonTokenType.String => reader.GetString(),
        _ => Encoding.UTF8.GetString(reader.ValueSpan),
    };

    private sealed class Frame(string pointer, bool isArray, bool isRows)
    {
        public string Pointer => pointer;

        public bool IsArray => isArray;

        public bool IsRows => isRows;

        public int Next { get; set; }
    }
}
