using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using TagService.Storage;

namespace TagService.Intake.Registers;

/// <summary>How a source is stored: the rules of <see cref="AssetRecordJson"/>; members that a newer program wrote are ignored.</summary>
public static class RegisterSourceJson
{
    /// <summary>The source as stored; equal sources have equal texts.</summary>
    public static string Write(RegisterSource source) => JsonSerializer.Serialize(source, AssetRecordJson.Options);

    /// <summary>The source from its stored text.</summary>
    /// <exception cref="JsonException">It is no source.</exception>
    public static RegisterSource Read(string json) =>
        JsonSerializer.Deserialize<RegisterSource>(json, AssetRecordJson.Options) ?? throw new JsonException("The stored register source is JSON null.");

    /// <summary>Version of a source: SHA-256 of its text, in hexadecimal digits.</summary>
    public static string HashOf(RegisterSource source) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Write(source))));
}
