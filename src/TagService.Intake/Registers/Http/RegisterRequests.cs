using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Text;
using Polly.CircuitBreaker;
using Polly.RateLimiting;
using Polly.Timeout;

namespace TagService.Intake.Registers.Http;

/// <summary>Sends the requests of one source: follows redirects by hand, adds the credential where it belongs and nowhere else.</summary>
internal sealed class RegisterRequests(HttpClient client, RegisterOutboundOptions outbound, HttpRegisterOptions source, TimeProvider clock)
{
    /// <summary>Name of the client in the factory.</summary>
    public const string ClientName = "registers";

    private const int MostRedirects = 5;

    /// <summary>The answer with status 200, 204 or 304, its body not read yet, and the address that gave it in the end.</summary>
    /// <exception cref="RegisterReadException">Any other outcome.</exception>
    public async Task<(HttpResponseMessage Response, Uri Address)> GetAsync(Uri address, string? etag, CancellationToken cancellationToken)
    {
        for (var hop = 0; hop <= MostRedirects; hop++)
        {
            CheckAddress(address);
            var response = await SendAsync(address, etag, cancellationToken);
            if (response.StatusCode is HttpStatusCode.OK or HttpStatusCode.NoContent or HttpStatusCode.NotModified)
                return (response, address);
            using (response)
            {
                if (response.StatusCode is not (HttpStatusCode.MovedPermanently or HttpStatusCode.Found or HttpStatusCode.SeeOther
                    or HttpStatusCode.TemporaryRedirect or HttpStatusCode.PermanentRedirect))
                {
                    throw Failure(response, address);
                }

                address = Resolve(address, response.Headers.Location?.OriginalString, "A redirect");
            }
        }

        throw new RegisterReadException(RegisterFault.ForbiddenAddress, $"{PageAddress.Shown(source.Address)} redirects more than {MostRedirects} times.");
    }

    /// <summary>An address that the source gave, resolved; where it may not lead this throws.</summary>
    public Uri Resolve(Uri from, string? reference, string what)
    {
        if (reference is null || !Uri.TryCreate(from, reference, out var to) || to.Scheme is not ("https" or "http") || to.UserInfo.Length > 0)
            throw new RegisterReadException(RegisterFault.ForbiddenAddress, $"{what} of {PageAddress.Shown(from)} leads to no address that can be read.");
        if (from.Scheme == "https" && to.Scheme == "http")
            throw new RegisterReadException(RegisterFault.ForbiddenAddress, $"{what} of {PageAddress.Shown(from)} leads from https to http.");
        var isOwn = PageAddress.Origin(to) == PageAddress.Origin(source.Address);
        if (!isOwn && !outbound.AllowedRedirectHosts.Contains(to.Host, StringComparer.OrdinalIgnoreCase))
            throw new RegisterReadException(RegisterFault.ForbiddenAddress, $"{what} of {PageAddress.Shown(from)} leads to {PageAddress.Origin(to)}, which is neither the source's own origin nor a host that the operator allows.");
        CheckAddress(to);
        return to;
    }

    private void CheckAddress(Uri address)
    {
        if (address.Scheme != "https" && !outbound.AllowedHttpHosts.Contains(address.Host, StringComparer.OrdinalIgnoreCase))
            throw new RegisterReadException(RegisterFault.ForbiddenAddress, $"{PageAddress.Shown(address)} is plain http, which the operator has not allowed for this host.");
    }

    private async Task<HttpResponseMessage> SendAsync(Uri address, string? etag, CancellationToken cancellationToken)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, address);
        request.Headers.Accept.Add(new("application/json"));
        if (etag is not null)
            request.Headers.TryAddWithoutValidation("If-None-Match", etag);
        AddCredential(request, address);
        try
        {
            return await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, cancellationToken);
        }
        catch (HttpRequestException e) when (e.InnerException is ForbiddenAddressException forbidden)
        {
            throw new RegisterReadException(RegisterFault.ForbiddenAddress, forbidden.Message, e);
        }
        catch (HttpRequestException e)
        {
            throw new RegisterReadException(RegisterFault.Unreachable, $"{PageAddress.Shown(address)} cannot be reached: {e.HttpRequestError}.", e);
        }
        catch (BrokenCircuitException e)
        {
            throw new RegisterReadException(RegisterFault.CircuitOpen, $"{address.Authority} failed too often; nothing is sent to it for a while.", e)
            {
                RetryAt = clock.GetUtcNow() + (e.RetryAfter ?? outbound.CircuitBreak),
            };
        }
        catch (Exception e) when (e is TimeoutRejectedException or RateLimiterRejectedException
            || (e is OperationCanceledException && !cancellationToken.IsCancellationRequested))
        {
            throw new RegisterReadException(RegisterFault.TimedOut, $"{PageAddress.Shown(address)} did not answer in time.", e);
        }
    }

    private void AddCredential(HttpRequestMessage request, Uri address)
    {
        if (source.CredentialName is not { } name)
            return;
        if (!outbound.Credentials.TryGetValue(name, out var credential))
            throw new RegisterReadException(RegisterFault.CredentialsRefused, $"There is no credential named {name} in the configuration.");
        if (!Uri.TryCreate(credential.Origin, UriKind.Absolute, out var origin) || PageAddress.Origin(origin) != PageAddress.Origin(source.Address))
            throw new RegisterReadException(RegisterFault.CredentialsRefused, $"The credential {name} may not be sent to {PageAddress.Origin(source.Address)}; its configuration names another origin.");
        // An allowed redirect to another host goes without.
        if (PageAddress.Origin(address) != PageAddress.Origin(origin))
            return;
        switch (credential.Kind)
        {
            case CredentialKind.Bearer:
                request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", credential.Secret);
                break;
            case CredentialKind.Basic:
                request.Headers.Authorization = new AuthenticationHeaderValue(
                    "Basic", Convert.ToBase64String(Encoding.UTF8.GetBytes($"{credential.UserName}:{credential.Secret}")));
                break;
            default:
                if (!request.Headers.TryAddWithoutValidation(credential.HeaderName, credential.Secret))
                    throw new RegisterReadException(RegisterFault.CredentialsRefused, $"The credential {name} names no header that can be sent.");
                break;
        }
    }

    private RegisterReadException Failure(HttpResponseMessage response, Uri address)
    {
        var status = (int)response.StatusCode;
        var now = clock.GetUtcNow();
        var fault = response.StatusCode switch
        {
            HttpStatusCode.Unauthorized or HttpStatusCode.Forbidden => RegisterFault.CredentialsRefused,
            HttpStatusCode.NotFound or HttpStatusCode.Gone => RegisterFault.NotFound,
            var s when RetryAfter.IsThrottling(s) => RegisterFault.Throttled,
            _ when status >= 500 => RegisterFault.SourceFailed,
            _ => RegisterFault.RequestRefused,
        };
        return new(fault, string.Create(CultureInfo.InvariantCulture, $"{PageAddress.Shown(address)} answers with status {status}."))
        {
            RetryAt = RetryAfter.Of(response, now) is { } wait ? now + wait : null,
        };
    }
}
