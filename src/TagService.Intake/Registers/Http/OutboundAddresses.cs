using System.Net;
using System.Net.Sockets;

namespace TagService.Intake.Registers.Http;

/// <summary>
/// Which addresses requests may be sent to. Special-purpose addresses (IANA registries after RFC 6890, from memory) are closed unless
/// the operator opens a network; an IPv4 address inside an IPv6 one counts as the IPv4 address it is.
/// </summary>
internal sealed class OutboundAddresses(IEnumerable<string> allowedNetworks)
{
    private static readonly IPNetwork[] Special =
    [
        .. new[]
        {
            "0.0.0.0/8", "10.0.0.0/8", "100.64.0.0/10", "127.0.0.0/8", "169.254.0.0/16", "172.16.0.0/12", "192.0.0.0/24", "192.0.2.0/24",
            "192.88.99.0/24", "192.168.0.0/16", "198.18.0.0/15", "198.51.100.0/24", "203.0.113.0/24", "224.0.0.0/4", "240.0.0.0/4",
        }.Select(n => IPNetwork.Parse(n)),
    ];

    // Of IPv6 only global unicast is open, and of that not what tunnels, documents or benchmarks.
    private static readonly IPNetwork GlobalUnicast = IPNetwork.Parse("2000::/3");

    private static readonly IPNetwork[] SpecialUnicast =
        [.. new[] { "2001::/23", "2001:db8::/32", "3fff::/20" }.Select(n => IPNetwork.Parse(n))];

    private static readonly IPNetwork Nat64 = IPNetwork.Parse("64:ff9b::/96");

    private static readonly IPNetwork SixToFour = IPNetwork.Parse("2002::/16");

    private readonly IPNetwork[] _allowed = [.. allowedNetworks.Select(n => IPNetwork.Parse(n))];

    /// <summary>May a request be sent there?</summary>
    public bool Allows(IPAddress address)
    {
        var plain = Plain(address);
        return Array.Exists(_allowed, n => n.Contains(plain)) || IsPublic(plain);
    }

    private static bool IsPublic(IPAddress address) =>
        address.AddressFamily == AddressFamily.InterNetwork
            ? !Array.Exists(Special, n => n.Contains(address))
            : GlobalUnicast.Contains(address) && !Array.Exists(SpecialUnicast, n => n.Contains(address));

    private static IPAddress Plain(IPAddress address)
    {
        if (address.IsIPv4MappedToIPv6)
            return address.MapToIPv4();
        if (address.AddressFamily != AddressFamily.InterNetworkV6)
            return address;
        var bytes = address.GetAddressBytes();
        return Nat64.Contains(address) ? new(bytes.AsSpan(12)) : SixToFour.Contains(address) ? new(bytes.AsSpan(2, 4)) : address;
    }
}
