using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace TagService.Intake.Registers.Http;

/// <summary>Where a pass over an HTTP source stands; what <see cref="RegisterPosition"/> holds.</summary>
internal sealed record HttpPosition
{
    private static readonly JsonSerializerOptions Json = new()
    {
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingDefault,
    };

    /// <summary>Hash of the settings it belongs to.</summary>
    public required string Settings { get; init; }

    /// <summary>The pass has ended; what follows is the next one.</summary>
    public bool Done { get; init; }

    /// <summary>Address of the page at hand, for links.</summary>
    public string? Link { get; init; }

    /// <summary>Cursor of the page at hand; null: the first.</summary>
    public string? Cursor { get; init; }

    /// <summary>Number of the page at hand, counted from 0.</summary>
    public int Page { get; init; }

    /// <summary>Rows of the page at hand that were returned.</summary>
    public int RowsOfPage { get; init; }

    /// <summary>Hash over those rows, to see that they are the same when the page is read again.</summary>
    public string? RowsHash { get; init; }

    /// <summary>Start of the pass by the source's clock.</summary>
    public DateTimeOffset? Start { get; init; }

    /// <summary>Start of the last finished pass: what changed since is asked for.</summary>
    public DateTimeOffset? Since { get; init; }

    /// <summary>Entity tag of the source's only page.</summary>
    public string? ETag { get; init; }

    /// <summary>Rows of the pass.</summary>
    public long Rows { get; init; }

    /// <summary>Unreadable rows of the pass.</summary>
    public long Unreadable { get; init; }

    /// <summary>Rows announced.</summary>
    public long? Announced { get; init; }

    /// <summary>Why the list may not be complete.</summary>
    public IReadOnlyList<string> Doubts { get; init; } = [];

    public RegisterPosition ToPosition() => new(JsonSerializer.Serialize(this, Json));

    /// <summary>The position, or null when the token is none of this source with these settings.</summary>
    public static HttpPosition? Read(RegisterPosition? position, string settings)
    {
        if (position is not { Token: { } token })
            return null;
        try
        {
            return JsonSerializer.Deserialize<HttpPosition>(token, Json) is { } read && read.Settings == settings ? read : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>Hash of what decides which rows come in which order; limits and credentials do not.</summary>
    public static string SettingsHash(HttpRegisterOptions o)
    {
        var text = JsonSerializer.Serialize(new object?[]
        {
            o.Address, o.RowsPointer, o.Paging, o.CursorPointer, o.CursorParameter, o.PageParameter, o.FirstPage, o.LastPage, o.SizeParameter,
            o.PageSize, o.TotalPointer, o.ChangedSinceParameter, o.ChangedSinceFormat, o.UseETag,
        });
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..16];
    }
}
