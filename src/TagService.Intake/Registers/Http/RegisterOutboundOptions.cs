namespace TagService.Intake.Registers.Http;

/// <summary>What the operator allows and how patient requests are; configuration section <c>Registers:Http</c>.</summary>
public sealed class RegisterOutboundOptions
{
    /// <summary>Name of the configuration section.</summary>
    public const string Section = "Registers:Http";

    /// <summary>Credentials by name.</summary>
    public Dictionary<string, RegisterCredential> Credentials { get; } = new(StringComparer.Ordinal);

    /// <summary>Hosts that may be asked by plain http; everything sent there can be read on the way.</summary>
    public IList<string> AllowedHttpHosts { get; } = [];

    /// <summary>Hosts that a redirect or a link to the next page may lead to beside the source's own origin; credentials never go there.</summary>
    public IList<string> AllowedRedirectHosts { get; } = [];

    /// <summary>
    /// Networks in CIDR notation that may be reached although they are loopback, link-local, private or otherwise special, for example
    /// <c>10.20.0.0/16</c>.
    /// </summary>
    public IList<string> AllowedNetworks { get; } = [];

    /// <summary>Longest wait for the head of one answer; 30 s.</summary>
    public TimeSpan AttemptTimeout { get; set; } = TimeSpan.FromSeconds(30);

    /// <summary>Longest wait for the head of an answer with all retries; 10 min.</summary>
    public TimeSpan TotalTimeout { get; set; } = TimeSpan.FromMinutes(10);

    /// <summary>Longest pause within the body of an answer; 30 s.</summary>
    public TimeSpan ReadTimeout { get; set; } = TimeSpan.FromSeconds(30);

    /// <summary>Longest time spent waiting for the body of one page altogether; 10 min.</summary>
    public TimeSpan PageTimeout { get; set; } = TimeSpan.FromMinutes(10);

    /// <summary>Retries of one request, and of one page whose body breaks off; 4.</summary>
    public int Retries { get; set; } = 4;

    /// <summary>First pause before a retry; doubled each time, with jitter; 1 s.</summary>
    public TimeSpan RetryDelay { get; set; } = TimeSpan.FromSeconds(1);

    /// <summary>Longest <c>Retry-After</c> that is waited for here; beyond it the pass stops and says when to go on; 2 min.</summary>
    public TimeSpan MostRetryAfter { get; set; } = TimeSpan.FromMinutes(2);

    /// <summary>Requests at once to one host; 4.</summary>
    public int Concurrency { get; set; } = 4;

    /// <summary>Share of failures that opens the circuit, 0 to 1; 0.5.</summary>
    public double CircuitFailureRatio { get; set; } = 0.5;

    /// <summary>Least requests within <see cref="CircuitWindow"/> before the circuit can open; 10.</summary>
    public int CircuitLeastRequests { get; set; } = 10;

    /// <summary>Window of the circuit; 30 s.</summary>
    public TimeSpan CircuitWindow { get; set; } = TimeSpan.FromSeconds(30);

    /// <summary>How long an open circuit sends nothing; 15 s.</summary>
    public TimeSpan CircuitBreak { get; set; } = TimeSpan.FromSeconds(15);
}
