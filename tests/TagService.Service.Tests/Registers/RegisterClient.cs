using System.Text;

namespace TagService.Service.Tests.Registers;

/// <summary>Short forms of requests about registers.</summary>
internal static class RegisterClient
{
    public static async Task<HttpResponseMessage> SendJsonAsync(this HttpClient client, string path, string json)
    {
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        return await client.PostAsync(path, content);
    }
}
