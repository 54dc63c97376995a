using System.Globalization;
using System.Text;

namespace TagService.Intake.Registers.Http;

/// <summary>Addresses of pages.</summary>
internal static class PageAddress
{
    /// <summary>Address of the page at hand.</summary>
    public static Uri Of(HttpRegisterOptions o, HttpPosition at)
    {
        if (at.Link is { } link)
            return new(link);
        var address = o.Address;
        if (o is { SizeParameter: { } size, PageSize: { } rows })
            address = With(address, size, rows.ToString(CultureInfo.InvariantCulture));
        if (o.ChangedSinceParameter is { } since && at.Since is { } moment)
            address = With(address, since, Written(moment - o.ChangedSinceOverlap, o.ChangedSinceFormat));
        if (o is { Paging: HttpPaging.PageNumber, PageParameter: { } page })
            address = With(address, page, (o.FirstPage + at.Page).ToString(CultureInfo.InvariantCulture));
        if (o is { Paging: HttpPaging.Cursor, CursorParameter: { } cursor } && at.Cursor is { } value)
            address = With(address, cursor, value);
        return address;
    }

    /// <summary>The address with a query parameter set, whether or not it was there.</summary>
    public static Uri With(Uri address, string name, string value)
    {
        var escaped = Uri.EscapeDataString(name);
        var others = address.Query.TrimStart('?').Split('&', StringSplitOptions.RemoveEmptyEntries)
            .Where(p => !p.StartsWith(escaped + "=", StringComparison.Ordinal) && p != escaped);
        var query = new StringBuilder("?");
        foreach (var other in others)
            query.Append(other).Append('&');
        query.Append(escaped).Append('=').Append(Uri.EscapeDataString(value));
        return new(address.GetLeftPart(UriPartial.Path) + query);
    }

    /// <summary>What may be shown of an address: no query, which can hold anything.</summary>
    public static string Shown(Uri address) => address.GetLeftPart(UriPartial.Path);

    /// <summary>Scheme, host and port.</summary>
    public static string Origin(Uri address) => address.GetLeftPart(UriPartial.Authority).ToLowerInvariant();

    private static string Written(DateTimeOffset moment, ChangedSinceFormat format) => format == ChangedSinceFormat.UnixSeconds
        ? moment.ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture)
        : moment.UtcDateTime.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture);
}
