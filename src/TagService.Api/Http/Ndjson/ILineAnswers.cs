using TagService.Api.Http.Json;

namespace TagService.Api.Http.Ndjson;

/// <summary>What a batch says to its lines.</summary>
internal interface ILineAnswers
{
    /// <summary>Writes the answer to one line; called from several threads. Returns whether the line was good.</summary>
    bool Answer(Line line, JsonBytes json);

    /// <summary>Writes the last line when the answers to the lines from one to another found no room and nobody read.</summary>
    void NotRead(JsonBytes json, long firstLine, long lastLine);

    /// <summary>Told after each few lines how many are answered and how many of them refused.</summary>
    void Report(long answered, long refused);
}
