using System.Buffers;
using System.IO.Pipelines;

namespace TagService.Api.Http.Ndjson;

/// <summary>One line of a stream; its text lives in a rented buffer until <see cref="Return"/>.</summary>
/// <param name="Number">Number of the line, from 1.</param>
/// <param name="Buffer">Rented buffer.</param>
/// <param name="Length">Bytes of the line in it, without its end.</param>
/// <param name="TooLong">The line was longer than allowed and its text was skipped.</param>
internal readonly record struct Line(long Number, byte[] Buffer, int Length, bool TooLong)
{
    /// <summary>The text.</summary>
    public ReadOnlySpan<byte> Text => Buffer.AsSpan(0, Length);

    /// <summary>Gives the buffer back.</summary>
    public void Return() => ArrayPool<byte>.Shared.Return(Buffer);
}

/// <summary>Cuts a stream into lines (LF or CRLF). Blank lines are counted and left out; a line too long is skipped and reported.</summary>
internal sealed class LineReader(PipeReader pipe, int maxLineBytes)
{
    private long _number;
    private bool _skipping;

    /// <summary>Up to <paramref name="most"/> lines, fewer at the end; empty only when the stream has ended.</summary>
    public async ValueTask<List<Line>> ReadAsync(int most, CancellationToken cancellationToken)
    {
        var lines = new List<Line>(most);
        while (lines.Count == 0)
        {
            var read = await pipe.ReadAsync(cancellationToken);
            var rest = read.Buffer;
            while (lines.Count < most && Cut(ref rest, read.IsCompleted, lines))
            {
            }

            // What is left is either complete lines for the next call, or the start of one: then more must come.
            pipe.AdvanceTo(rest.Start, lines.Count == most ? rest.Start : rest.End);
            if (read.IsCompleted && rest.IsEmpty)
                break;
        }

        return lines;
    }

    private bool Cut(ref ReadOnlySequence<byte> rest, bool last, List<Line> lines)
    {
        if (rest.PositionOf((byte)'\n') is { } end)
        {
            Take(rest.Slice(0, end), lines);
            rest = rest.Slice(rest.GetPosition(1, end));
            return true;
        }

        if (last && !rest.IsEmpty)
        {
            Take(rest, lines);
            rest = rest.Slice(rest.End);
            return true;
        }

        if (rest.Length > maxLineBytes)
        {
            _skipping = true;
            rest = rest.Slice(rest.End);
        }

        return false;
    }

    private void Take(in ReadOnlySequence<byte> text, List<Line> lines)
    {
        _number++;
        var tooLong = _skipping || text.Length > maxLineBytes;
        _skipping = false;
        if (tooLong)
        {
            lines.Add(new(_number, ArrayPool<byte>.Shared.Rent(1), 0, TooLong: true));
            return;
        }

        var buffer = ArrayPool<byte>.Shared.Rent(Math.Max(1, (int)text.Length));
        text.CopyTo(buffer);
        var length = buffer.AsSpan(0, (int)text.Length).TrimEnd("\r \t"u8).Length;
        if (length == 0)
            ArrayPool<byte>.Shared.Return(buffer);
        else
            lines.Add(new(_number, buffer, length, TooLong: false));
    }
}
