using System.Runtime.CompilerServices;
using Microsoft.Extensions.Options;

namespace TagService.Intake.Registers.Http;

/// <summary>
/// Reads a register that answers HTTP with JSON: pages by link, cursor or number, all rows or what changed since the last pass. Memory
/// is bounded by a portion of 1,000 rows, however large a page is.
/// </summary>
public sealed class HttpRegisterReader : IRegisterReader
{
    private readonly HttpRegisterOptions _source;
    private readonly IHttpClientFactory _clients;
    private readonly RegisterOutboundOptions _outbound;
    private readonly TimeProvider _clock;

    /// <summary>Reads one source.</summary>
    /// <param name="source">Its settings, without issues by <see cref="HttpRegisterCheck"/>.</param>
    /// <param name="clients">Gives the client that <see cref="RegisterReading"/> set up.</param>
    /// <param name="outbound">What the operator allows.</param>
    /// <param name="clock">The clock of pauses and limits.</param>
    /// <exception cref="ArgumentException">The settings have issues.</exception>
    public HttpRegisterReader(
        HttpRegisterOptions source, IHttpClientFactory clients, IOptions<RegisterOutboundOptions> outbound, TimeProvider clock)
    {
        if (HttpRegisterCheck.Issues(source) is [var issue, ..])
            throw new ArgumentException($"{issue.Pointer}: {issue.Detail} Accepted: {issue.Accepted}.", nameof(source));
        (_source, _clients, _outbound, _clock) = (source, clients, outbound.Value, clock);
    }

    /// <inheritdoc />
    public async IAsyncEnumerable<RegisterPage> ReadAsync(
        RegisterPosition? after, [EnumeratorCancellation] CancellationToken cancellationToken = default)
    {
        using var client = _clients.CreateClient(RegisterRequests.ClientName);
        var requests = new RegisterRequests(client, _outbound, _source, _clock);
        await using var pass = new HttpPass(_source, _outbound, requests, _clock, after);
        while (true)
        {
            var page = await pass.NextAsync(cancellationToken);
            yield return page;
            if (page.End is not null)
                yield break;
        }
    }
}
