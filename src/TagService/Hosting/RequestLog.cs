using System.Diagnostics;
using Microsoft.AspNetCore.Diagnostics;
using Serilog;
using Serilog.Events;

namespace TagService.Hosting;

/// <summary>One line a request: method, route pattern, status, time, trace id. No path, query, header or body.</summary>
internal static class RequestLog
{
    private const string Template = "{Method} {Route} {StatusCode} in {ElapsedMs:0.0} ms, trace {Trace}";

    public static void UseRequestLog(this WebApplication app) => app.UseSerilogRequestLogging(options =>
    {
        options.MessageTemplate = Template;
        options.IncludeQueryInRequestPath = false;
        options.GetLevel = Level;
        options.GetMessageTemplateProperties = (context, _, elapsedMs, status) =>
        [
            new("Method", new ScalarValue(Method(context.Request.Method))),
            new("Route", new ScalarValue(Route(context))),
            new("StatusCode", new ScalarValue(status)),
            new("ElapsedMs", new ScalarValue(elapsedMs)),
            new("Trace", new ScalarValue(Activity.Current?.TraceId.ToString() ?? context.TraceIdentifier)),
        ];
    });

    private static LogEventLevel Level(HttpContext context, double elapsedMs, Exception? exception)
    {
        if (exception is not null || context.Response.StatusCode >= 500)
            return LogEventLevel.Error;
        return context.Request.Path.StartsWithSegments("/health") ? LogEventLevel.Debug : LogEventLevel.Information;
    }

    // The exception handler clears the endpoint before it answers.
    private static string Route(HttpContext context)
    {
        var endpoint = context.GetEndpoint() ?? context.Features.Get<IExceptionHandlerFeature>()?.Endpoint;
        return (endpoint as RouteEndpoint)?.RoutePattern.RawText is { } pattern ? "/" + pattern.Trim('/') : "(no route)";
    }

    // A method is the caller's text too, unless it is one of the registered ones (RFC 9110 and RFC 5789).
    private static string Method(string method) =>
        method is "GET" or "HEAD" or "POST" or "PUT" or "DELETE" or "CONNECT" or "OPTIONS" or "TRACE" or "PATCH" ? method : "(other)";
}
