using System.Globalization;
using System.Net.Sockets;
using Serilog;
using Serilog.Core;
using Serilog.Events;
using Serilog.Filters;
using Serilog.Formatting.Compact;
using Serilog.Formatting.Display;

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
            .Filter.ByExcluding(IsAddressProblem)
            .Filter.ByExcluding(IsJobNeverStarted)
            .Enrich.With<WithoutRequestPath>();
        return log.WriteTo.Sink(new ConsoleLines(
            settings.JsonLog ? new CompactJsonFormatter() : new MessageTemplateTextFormatter(Template, CultureInfo.InvariantCulture),
            Console.OpenStandardOutput()));
    }

    // "Hosting failed to start" with a long stack trace, where the program itself says in two lines that the address is taken.
    private static bool IsAddressProblem(LogEvent logEvent) =>
        logEvent.Exception is IOException or SocketException && Matching.FromSource("Microsoft.Extensions.Hosting.Internal.Host")(logEvent);

    // A host that fails to start cancels jobs before they had a thread to run on, and reports each as failed.
    private static bool IsJobNeverStarted(LogEvent logEvent) =>
        logEvent.Exception is OperationCanceledException && Matching.FromSource("Microsoft.Extensions.Hosting.Internal.Host")(logEvent);

    /// <summary>The host attaches the request's path to every line written during a request; the caller chose its text.</summary>
    private sealed class WithoutRequestPath : ILogEventEnricher
    {
        public void Enrich(LogEvent logEvent, ILogEventPropertyFactory propertyFactory) => logEvent.RemovePropertyIfPresent("RequestPath");
    }
}
