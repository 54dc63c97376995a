using System.Buffers;
using System.IO.Compression;
using TagService.Api.Http.Json;

namespace TagService.Api.Http.Ndjson;

/// <summary>
/// Texts put aside in a temporary file, packed: answers repeat each other's words. For one writer and one reader at a time, in any order
/// of theirs. The file is made with the first text, is its owner's only, and is gone with the process even if that is killed.
/// </summary>
internal sealed class AnswerSpool(BatchSpooling limits) : IDisposable
{
    // The fastest; the window takes in several answers, which are mostly alike.
    private const int Quality = 1;
    private const int WindowBits = 20;

    private readonly Lock _lock = new();
    private FileStream? _file;
    private long _end;
    private int _kept;
    private bool _isDisposed;

    /// <summary>Where a text is.</summary>
    /// <param name="Offset">Its first byte in the file.</param>
    /// <param name="Stored">Its bytes there.</param>
    /// <param name="Length">Its bytes.</param>
    internal readonly record struct Place(long Offset, int Stored, int Length);

    /// <summary>Puts a text aside; null when there is no room for it.</summary>
    public Place? TryPut(ReadOnlySpan<byte> text)
    {
        var packed = ArrayPool<byte>.Shared.Rent(BrotliEncoder.GetMaxCompressedLength(text.Length));
        try
        {
            if (!BrotliEncoder.TryCompress(text, packed, out var stored, Quality, WindowBits))
                throw new InvalidOperationException("A text does not fit into the size that the encoder stated.");
            if (!limits.TryTake(stored))
                return null;
            try
            {
                lock (_lock)
                {
                    ObjectDisposedException.ThrowIf(_isDisposed, this);
                    RandomAccess.Write((_file ??= Open()).SafeFileHandle, packed.AsSpan(0, stored), _end);
                    _end += stored;
                    _kept++;
                    return new(_end - stored, stored, text.Length);
                }
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                // The disk is full before the limit is, or there is no place for the file: no room either.
                limits.GiveBack(stored);
                return null;
            }
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(packed);
        }
    }

    /// <summary>Takes a text out again, once.</summary>
    public void Take(Place place, JsonBytes into)
    {
        var packed = ArrayPool<byte>.Shared.Rent(place.Stored);
        try
        {
            lock (_lock)
            {
                ObjectDisposedException.ThrowIf(_isDisposed, this);
                for (var read = 0; read < place.Stored;)
                {
                    var some = RandomAccess.Read(_file!.SafeFileHandle, packed.AsSpan(read, place.Stored - read), place.Offset + read);
                    read += some > 0 ? some : throw new EndOfStreamException("The temporary file of a batch is shorter than what was put into it.");
                }

                // The file grows from its beginning again when all is taken out.
                if (--_kept == 0)
                    Clear();
            }

            if (!BrotliDecoder.TryDecompress(packed.AsSpan(0, place.Stored), into.GetSpan(place.Length), out var written) || written != place.Length)
                throw new InvalidDataException("The temporary file of a batch is not what was put into it.");
            into.Advance(written);
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(packed);
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        lock (_lock)
        {
            if (_isDisposed)
                return;
            _isDisposed = true;
            limits.GiveBack(_end);
            _file?.Dispose();
        }
    }

    private void Clear()
    {
        limits.GiveBack(_end);
        _end = 0;
        RandomAccess.SetLength(_file!.SafeFileHandle, 0);
    }

    private static FileStream Open()
    {
        var path = Path.Combine(Path.GetTempPath(), $"tagservice-batch-{Guid.NewGuid():N}");
        var options = new FileStreamOptions
        {
            Mode = FileMode.CreateNew, Access = FileAccess.ReadWrite, Share = FileShare.Delete, BufferSize = 0, Options = FileOptions.DeleteOnClose,
        };
        if (!OperatingSystem.IsWindows())
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        var file = new FileStream(path, options);
        // A file without a name stays until it is closed, by whatever end of the process; Windows has no such thing.
        if (!OperatingSystem.IsWindows())
            File.Delete(path);
        return file;
    }
}
