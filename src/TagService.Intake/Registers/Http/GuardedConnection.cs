using System.Net;
using System.Net.Sockets;

namespace TagService.Intake.Registers.Http;

/// <summary>
/// Connects only to addresses that are allowed. The name is resolved here and the connection goes to the very address that was
/// checked, so that a name that resolves differently a moment later gains nothing.
/// </summary>
internal static class GuardedConnection
{
    public static SocketsHttpHandler Handler(RegisterOutboundOptions options)
    {
        var addresses = new OutboundAddresses(options.AllowedNetworks);
        return new()
        {
            AllowAutoRedirect = false,
            UseCookies = false,
            // A proxy would resolve names itself, behind the check.
            UseProxy = false,
            AutomaticDecompression = DecompressionMethods.All,
            ConnectTimeout = options.AttemptTimeout,
            MaxConnectionsPerServer = Math.Max(1, options.Concurrency),
            MaxResponseHeadersLength = 64,
            PooledConnectionLifetime = TimeSpan.FromMinutes(2),
            ConnectCallback = (context, cancellationToken) => ConnectAsync(context.DnsEndPoint, addresses, cancellationToken),
        };
    }

    private static async ValueTask<Stream> ConnectAsync(DnsEndPoint host, OutboundAddresses addresses, CancellationToken cancellationToken)
    {
        var resolved = IPAddress.TryParse(host.Host.Trim('[', ']'), out var literal)
            ? [literal]
            : await Dns.GetHostAddressesAsync(host.Host, cancellationToken);
        var open = Array.FindAll(resolved, addresses.Allows);
        if (open.Length == 0)
            throw new ForbiddenAddressException($"{host.Host} leads to an address that requests may not be sent to; the operator can open its network.");
        var socket = new Socket(SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
        try
        {
            await socket.ConnectAsync(open, host.Port, cancellationToken);
            return new NetworkStream(socket, ownsSocket: true);
        }
        catch
        {
            socket.Dispose();
            throw;
        }
    }
}

/// <summary>A name resolves to nothing but addresses that requests may not be sent to.</summary>
internal sealed class ForbiddenAddressException(string message) : Exception(message);
