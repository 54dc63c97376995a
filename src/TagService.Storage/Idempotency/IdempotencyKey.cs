using System.Security.Cryptography;
using System.Text;

namespace TagService.Storage.Idempotency;

/// <summary>What a caller names a request by, and what it sent under that name.</summary>
/// <param name="Operation">The operation's id in the OpenAPI document.</param>
/// <param name="Key">The caller's key.</param>
/// <param name="ContentHash">SHA-256 of what was sent.</param>
public sealed record IdempotencyKey(string Operation, string Key, string ContentHash)
{
    /// <summary>A key with the hash of the request it names.</summary>
    /// <param name="operation">The operation's id in the OpenAPI document.</param>
    /// <param name="key">The caller's key.</param>
    /// <param name="target">Path and query of the request.</param>
    /// <param name="request">The body as it was understood: the same request in another layout of JSON is the same request.</param>
    public static IdempotencyKey Of<T>(string operation, string key, string target, T request) => new(
        operation, key, Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{target}\n{StoredJson.Write(request)}"))));
}

/// <summary>An answer as it can be given again.</summary>
/// <param name="Status">HTTP status.</param>
/// <param name="Body">The body, JSON.</param>
/// <param name="Location">Location header.</param>
public sealed record StoredAnswer(int Status, string Body, string? Location = null);

/// <summary>How a piece of work in one transaction ended.</summary>
public abstract record WorkOutcome
{
    private WorkOutcome()
    {
    }

    /// <summary>Done and kept, now or (then <see cref="Before"/>) under the same key before.</summary>
    public sealed record Done(StoredAnswer Answer, bool Before) : WorkOutcome;

    /// <summary>The work itself refused; nothing is kept, and the key stays free.</summary>
    public sealed record Refused : WorkOutcome;

    /// <summary>The key was used before for something else; nothing was done.</summary>
    public sealed record KeyReused : WorkOutcome;
}
