using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;

namespace TagService.Api.Pages.Shared;

/// <summary>A page as an answer: rendered on the server, without script, with the headers every page has.</summary>
/// <typeparam name="TPage">The page's component.</typeparam>
internal sealed class PageResult<TPage>(IReadOnlyDictionary<string, object?> parameters) : IResult
    where TPage : IComponent
{
    public Task ExecuteAsync(HttpContext httpContext)
    {
        var headers = httpContext.Response.Headers;
        headers.ContentSecurityPolicy = PageStyle.SecurityPolicy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers.CacheControl = "private, no-cache";
        headers.Vary = "Accept";
        // The renderer offers its own script's navigation; these pages have no script.
        httpContext.Response.OnStarting(static state => { ((HttpResponse)state).Headers.Remove("blazor-enhanced-nav"); return Task.CompletedTask; }, httpContext.Response);
        return new RazorComponentResult<TPage>(parameters).ExecuteAsync(httpContext);
    }
}
