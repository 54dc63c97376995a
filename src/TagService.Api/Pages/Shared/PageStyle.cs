using System.Security.Cryptography;
using System.Text;

namespace TagService.Api.Pages.Shared;

/// <summary>
/// The one style sheet of the pages. It stands in each page, so that a saved or mailed page looks as it did; the security policy
/// names it by its hash, so that no other style and no script at all can run.
/// </summary>
internal static class PageStyle
{
    private static readonly string Css = Read();

    /// <summary>The style element; constant text of our own.</summary>
    public static string Element { get; } = $"<style>{Css}</style>";

    /// <summary>Content-Security-Policy of every page (W3C CSP Level 3).</summary>
    public static string SecurityPolicy { get; } = string.Join("; ", [
        "default-src 'none'",
        $"style-src 'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(Css)))}'",
        "img-src 'self' data:",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    ]);

    private static string Read()
    {
        using var stream = typeof(PageStyle).Assembly.GetManifestResourceStream("page.css")
            ?? throw new InvalidOperationException("page.css is not embedded.");
        using var reader = new StreamReader(stream);
        // A browser reads line ends as line feeds, and the hash is over what it reads.
        return reader.ReadToEnd().ReplaceLineEndings("\n");
    }
}
