using System.Globalization;
using System.Security.Cryptography;

namespace TagService.Intake.Registers.Http;

/// <summary>One page of an HTTP source being read.</summary>
internal sealed class HttpPageSession : IAsyncDisposable
{
    private readonly HttpResponseMessage _response;
    private readonly BoundedBody _body;
    private readonly JsonRowReader _reader;
    private readonly HttpRegisterOptions _source;
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);

    private HttpPageSession(HttpResponseMessage response, Uri address, BoundedBody body, HttpRegisterOptions source)
    {
        (_response, Address, _body, _source) = (response, address, body, source);
        _reader = new(body, source.RowsPointer, [source.CursorPointer, source.TotalPointer], source.MostRowBytes);
    }

    /// <summary>Address that gave the page, redirects followed.</summary>
    public Uri Address { get; }

    /// <summary>Rows passed so far, readable or not.</summary>
    public int Rows { get; private set; }

    /// <summary>Hash over the rows passed so far.</summary>
    public string RowsHash => Convert.ToHexStringLower(_hash.GetCurrentHash())[..16];

    /// <summary>The row at hand as the source wrote it.</summary>
    public ReadOnlySpan<byte> Row => _reader.Row;

    /// <summary>The row at hand is too large.</summary>
    public bool RowIsTooLarge => _reader.RowIsTooLarge;

    /// <summary>Cursor of the next page; counts when the page has been read to its end.</summary>
    public string? Cursor => _reader.Picked(_source.CursorPointer) is { Length: > 0 } cursor ? cursor : null;

    /// <summary>Rows that the source announces.</summary>
    public long? Announced => long.TryParse(_reader.Picked(_source.TotalPointer), NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : null;

    /// <summary>Link to the next page, as written.</summary>
    public string? NextLink => _response.Headers.TryGetValues("Link", out var fields) ? LinkHeader.Next(fields) : null;

    /// <summary>Opens a page.</summary>
    public static async Task<HttpPageSession> OpenAsync(
        HttpResponseMessage response, Uri address, HttpRegisterOptions source, RegisterOutboundOptions outbound, TimeProvider clock,
        CancellationToken cancellationToken)
    {
        CheckType(response, address);
        var stream = await response.Content.ReadAsStreamAsync(cancellationToken);
        return new(response, address, new(stream, source.MostPageBytes, outbound.ReadTimeout, outbound.PageTimeout, clock), source);
    }

    /// <summary>Goes to the next row; false at the end of the page.</summary>
    /// <exception cref="RegisterReadException">The page cannot be read on.</exception>
    public async ValueTask<bool> ReadAsync(CancellationToken cancellationToken)
    {
        if (await _reader.ReadAsync(cancellationToken))
        {
            Rows++;
            _hash.AppendData(_reader.Row);
            _hash.AppendData("\n"u8);
            return true;
        }

        return _reader.FoundRows
            ? false
            : throw new RegisterReadException(RegisterFault.NoRows, $"The answer of {PageAddress.Shown(Address)} has no array of rows {(_source.RowsPointer.Length == 0 ? "at its top" : "at " + _source.RowsPointer)}.");
    }

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        await _body.DisposeAsync();
        _response.Dispose();
        _hash.Dispose();
    }

    private static void CheckType(HttpResponseMessage response, Uri address)
    {
        var type = response.Content.Headers.ContentType;
        var isJson = type?.MediaType is { } media
            && (media.Equals("application/json", StringComparison.OrdinalIgnoreCase) || media.EndsWith("+json", StringComparison.OrdinalIgnoreCase))
            && !media.Contains("problem", StringComparison.OrdinalIgnoreCase);
        if (!isJson)
            throw new RegisterReadException(RegisterFault.WrongContentType, $"{PageAddress.Shown(address)} answers with {type?.MediaType ?? "no content type"}, not with application/json; perhaps it is a log-in page.");
        if (type!.CharSet is { } charset && !charset.Trim('"').Equals("utf-8", StringComparison.OrdinalIgnoreCase))
            throw new RegisterReadException(RegisterFault.WrongContentType, $"{PageAddress.Shown(address)} answers in the charset {charset}; JSON is UTF-8 (RFC 8259, section 8.1).");
    }
}
