using System.Data.Common;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Logging;
using TagService.Storage.Idempotency;

namespace TagService.Api.Http.Problems;

/// <summary>The one place where exceptions become answers. Details go to the log, the trace id to the caller.</summary>
internal sealed class UnhandledExceptionHandler(ILogger<UnhandledExceptionHandler> logger) : IExceptionHandler
{
    private const int RetryAfterSeconds = 5;

    public async ValueTask<bool> TryHandleAsync(HttpContext httpContext, Exception exception, CancellationToken cancellationToken)
    {
        // The caller has gone: nobody to answer, nothing to mend.
        if (exception is OperationCanceledException or IOException && httpContext.RequestAborted.IsCancellationRequested)
        {
            httpContext.Response.StatusCode = StatusCodes.Status499ClientClosedRequest;
            return true;
        }

        await ProblemOf(exception, httpContext).ExecuteAsync(httpContext);
        return true;
    }

    private ApiProblem ProblemOf(Exception exception, HttpContext context)
    {
        if (exception is BadHttpRequestException bad)
            return ParameterProblem.Of(bad) ?? StatusProblems.Of(bad.StatusCode, context);
        if (exception is CommitUncertainException)
        {
            logger.LogError(exception, "The connection to the database was lost while committing {Method} {Route}", context.Request.Method, RouteOf(context));
            // No Retry-After: what may have been done is not to be sent again blindly.
            return new ApiProblem(ProblemTypes.Unavailable, exception.Message);
        }

        if (IsUnavailable(exception))
        {
            logger.LogError(exception, "A dependency failed while answering {Method} {Route}", context.Request.Method, RouteOf(context));
            return new ApiProblem(ProblemTypes.Unavailable, "The database does not answer.") { RetryAfterSeconds = RetryAfterSeconds };
        }

        logger.LogError(exception, "Unhandled exception while answering {Method} {Route}", context.Request.Method, RouteOf(context));
        return new ApiProblem(ProblemTypes.InternalError, "The service failed; the trace id leads whoever runs it to the details.");
    }

    /// <summary>Database and network failures, not mistakes in our statements.</summary>
    private static bool IsUnavailable(Exception exception) => exception switch
    {
        TimeoutException => true,
        // Without an SQLSTATE the server was not reached; with one its class tells (PostgreSQL manual, appendix A).
        DbException { SqlState: null } e => e.InnerException is null or System.IO.IOException or System.Net.Sockets.SocketException or TimeoutException,
        DbException { SqlState: var state } => state[..2] is "08" or "28" or "3D" or "53" or "55" or "57" or "58" || state.StartsWith("40", StringComparison.Ordinal),
        // Not a mistake of ours but of what it wraps (a retry strategy that gave up, a failed save).
        { InnerException: DbException or TimeoutException } e => IsUnavailable(e.InnerException!),
        _ => false,
    };

    // The template, not the path: ids stay out of the log. The endpoint itself is cleared before this runs.
    private static string RouteOf(HttpContext context) =>
        (context.Features.Get<IExceptionHandlerFeature>()?.Endpoint as RouteEndpoint)?.RoutePattern.RawText ?? "(no route)";
}
