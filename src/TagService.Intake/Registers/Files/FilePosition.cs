using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace TagService.Intake.Registers.Files;

/// <summary>Where a pass over a file stands; what <see cref="RegisterPosition"/> holds.</summary>
internal sealed record FilePosition
{
    private static readonly JsonSerializerOptions Json = new() { DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingDefault };

    /// <summary>Hash of the settings it belongs to.</summary>
    public required string Settings { get; init; }

    /// <summary>The file has been read to its end.</summary>
    public bool Done { get; init; }

    /// <summary>Name of the file.</summary>
    public required string File { get; init; }

    /// <summary>Its size.</summary>
    public long Length { get; init; }

    /// <summary>When it was written.</summary>
    public DateTime WrittenAt { get; init; }

    /// <summary>Rows returned.</summary>
    public long Rows { get; init; }

    /// <summary>Unreadable rows returned.</summary>
    public long Unreadable { get; init; }

    public FileStamp Stamp => new(Length, WrittenAt);

    public RegisterPosition ToPosition() => new(JsonSerializer.Serialize(this, Json));

    /// <summary>The position, or null when the token is none of this source with these settings.</summary>
    public static FilePosition? Read(RegisterPosition? position, string settings)
    {
        if (position is not { Token: { } token })
            return null;
        try
        {
            return JsonSerializer.Deserialize<FilePosition>(token, Json) is { } read && read.Settings == settings ? read : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>Hash of the settings; every one of them can decide which rows come.</summary>
    public static string SettingsHash(FileRegisterOptions source) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(source.GetType().Name + JsonSerializer.Serialize<object>(source))))[..16];
}
