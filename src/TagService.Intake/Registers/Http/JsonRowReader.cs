using System.Globalization;
using System.Text.Json;

namespace TagService.Intake.Registers.Http;

/// <summary>
/// Reads the rows of one JSON document one by one, however long it is: only the row at hand is in memory. Picks up plain values at a
/// few other places (cursor, total) on the way, before or behind the rows. The document is read to its end, so that one that is cut
/// short is noticed.
/// </summary>
internal sealed class JsonRowReader(BoundedBody body, string rowsPointer, IEnumerable<string?> picked, int mostRowBytes)
{
    /// <summary>Deepest nesting of a document.</summary>
    public const int MaxDepth = 128;

    private const int FirstBuffer = 64 * 1024;
    private const int KeptOfLargeRow = 12 * 1024;

    private readonly JsonPlace _place = new(rowsPointer, picked.OfType<string>());
    private byte[] _buffer = new byte[FirstBuffer];
    private int _start;
    private int _end;
    private bool _begun;
    private bool _isFinal;
    private JsonReaderState _state = new(new JsonReaderOptions { MaxDepth = MaxDepth });
    private int _largeRowDepth = -1;
    private ReadOnlyMemory<byte> _row;

    /// <summary>The document had an array where the rows should be.</summary>
    public bool FoundRows => _place.FoundRows;

    /// <summary>The row at hand as the source wrote it, until the next one is read; of one that is too large only its beginning.</summary>
    public ReadOnlySpan<byte> Row => _row.Span;

    /// <summary>The row at hand is larger than allowed.</summary>
    public bool RowIsTooLarge { get; private set; }

    /// <summary>The plain value at a picked place, if it came by: text, or a number or word as written; null for JSON null.</summary>
    public string? Picked(string? pointer) => pointer is null ? null : _place.Picked.GetValueOrDefault(pointer);

    /// <summary>Goes to the next row.</summary>
    /// <returns>False at the end of the document.</returns>
    /// <exception cref="RegisterReadException">Malformed, truncated, too large, too slow.</exception>
    public async ValueTask<bool> ReadAsync(CancellationToken cancellationToken)
    {
        RowIsTooLarge = false;
        while (!Step())
        {
            if (_isFinal)
                return false;
            await FillAsync(cancellationToken);
        }

        return true;
    }

    private bool Step()
    {
        try
        {
            return Walk();
        }
        catch (JsonException e)
        {
            throw _isFinal && EndsEarly()
                ? new RegisterReadException(RegisterFault.Truncated, "The answer is JSON that ends too early.", e)
                : new RegisterReadException(RegisterFault.Malformed, "The answer is not JSON.", e);
        }
        catch (InvalidOperationException e)
        {
            throw new RegisterReadException(RegisterFault.Malformed, "The answer holds a name or a cursor that is not UTF-8.", e);
        }
    }

    // True with a row at hand, false when more bytes are needed or the document has ended.
    private bool Walk()
    {
        if (!_begun && !Begin())
            return false;
        var json = _buffer.AsSpan(_start, _end - _start);
        var reader = new Utf8JsonReader(json, _isFinal, _state);
        while (true)
        {
            var (before, state) = (reader.BytesConsumed, reader.CurrentState);
            if (!reader.Read())
            {
                Save(reader.BytesConsumed, reader.CurrentState);
                return false;
            }

            if (_largeRowDepth >= 0)
            {
                if (reader.CurrentDepth > _largeRowDepth || reader.TokenType is not (JsonTokenType.EndObject or JsonTokenType.EndArray))
                    continue;
                _largeRowDepth = -1;
                RowIsTooLarge = true;
                Save(reader.BytesConsumed, reader.CurrentState);
                return true;
            }

            if (!_place.IsAmongRows || reader.TokenType == JsonTokenType.EndArray)
            {
                _place.Pass(ref reader);
                continue;
            }

            var from = (int)reader.TokenStartIndex;
            if (reader.TrySkip())
            {
                var length = (int)reader.BytesConsumed - from;
                RowIsTooLarge = length > mostRowBytes;
                _row = _buffer.AsMemory(_start + from, RowIsTooLarge ? Math.Min(length, KeptOfLargeRow) : length);
                Save(reader.BytesConsumed, reader.CurrentState);
                return true;
            }

            if (json.Length - from <= mostRowBytes)
            {
                Save(before, state);
                return false;
            }

            // Too large to wait for its end: on through its tokens, keeping only its beginning.
            _row = json.Slice(from, Math.Min(KeptOfLargeRow, json.Length - from)).ToArray();
            _largeRowDepth = reader.CurrentDepth;
        }
    }

    private bool Begin()
    {
        // RFC 8259, section 8.1: a byte order mark may be ignored.
        if (_end < 3 && !_isFinal)
            return false;
        if (_buffer.AsSpan(0, _end).StartsWith("\uFEFF"u8))
            _start = 3;
        _begun = true;
        return true;
    }

    private void Save(long consumed, JsonReaderState state)
    {
        _start += (int)consumed;
        _state = state;
    }

    // What is left would be fine if only more came.
    private bool EndsEarly()
    {
        try
        {
            var reader = new Utf8JsonReader(_buffer.AsSpan(_start, _end - _start), isFinalBlock: false, _state);
            while (reader.Read())
            {
            }

            return true;
        }
        catch (JsonException)
        {
            return false;
        }
    }

    private async ValueTask FillAsync(CancellationToken cancellationToken)
    {
        if (_start > 0)
        {
            _buffer.AsSpan(_start, _end - _start).CopyTo(_buffer);
            (_start, _end) = (0, _end - _start);
        }

        if (_end == _buffer.Length)
        {
            // Tokens are read whole: one text can be as long as a row may be.
            var most = Math.Max(FirstBuffer, 2 * mostRowBytes) + FirstBuffer;
            if (_buffer.Length >= most)
                throw new RegisterReadException(RegisterFault.TooLarge, string.Create(CultureInfo.InvariantCulture, $"One value of the answer is larger than {mostRowBytes} bytes."));
            Array.Resize(ref _buffer, Math.Min(_buffer.Length * 2, most));
        }

        var read = await body.ReadAsync(_buffer.AsMemory(_end), cancellationToken);
        _end += read;
        _isFinal = read == 0;
    }
}
