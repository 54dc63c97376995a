using Serilog;
using Serilog.Core;
using Serilog.Events;
using Serilog.Formatting.Compact;

namespace TagService.Hosting;

/// <summary>Logging: readable text or one JSON object a line; requests by route, never by their contents.</summary>
internal static class ServiceLog
{
    private const string Template = "{Timestamp:HH:mm:ss} {Level:u3} {Message:lj}{NewLine}{Exception}";

    public static LoggerConfiguration Configure(LoggerConfiguration log, ServiceSettings settings)
    {
        log.MinimumLevel.Is(settings.LogLevel)
            .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
            .MinimumLevel.Override("System", LogEventLevel.Warning)
            // It logs the exception of a failed request; so does our request line.
            .MinimumLevel.Override("Microsoft.AspNetCore.Diagnostics.ExceptionHandlerMiddleware", LogEventLevel.Fatal)
            .Enrich.With<WithoutRequestPath>();
        return settings.JsonLog
            ? log.WriteTo.Console(new CompactJsonFormatter())
            : log.WriteTo.Console(outputTemplate: Template, formatProvider: System.Globalization.CultureInfo.InvariantCulture);
    }

    /// <summary>The host attaches the request's path to every line written during a request; the caller chose its text.</summary>
    private sealed class WithoutRequestPath : ILogEventEnricher
    {
        public void Enrich(LogEvent logEvent, ILogEventPropertyFactory propertyFactory) => logEvent.RemovePropertyIfPresent("RequestPath");
    }
}
