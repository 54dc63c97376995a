using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using TagService.Api.Http.Problems;

namespace TagService.Api.Http.Json;

/// <summary>A body read: the value, or the problem that says what is wrong with it and where.</summary>
public readonly struct JsonBodyResult<T>
    where T : class
{
    internal JsonBodyResult(T value, IReadOnlyDictionary<string, JsonElement> otherMembers)
    {
        Value = value;
        OtherMembers = otherMembers;
    }

    internal JsonBodyResult(ApiProblem problem)
    {
        Problem = problem;
        OtherMembers = JsonBody.NoMembers;
    }

    /// <summary>Whether the body could be read.</summary>
    [MemberNotNullWhen(true, nameof(Value))]
    [MemberNotNullWhen(false, nameof(Problem))]
    public bool IsRead => Value is not null;

    /// <summary>The value; every number in it is finite and within its range.</summary>
    public T? Value { get; }

    /// <summary>What is wrong.</summary>
    public ApiProblem? Problem { get; }

    /// <summary>Top-level members that <typeparamref name="T"/> does not have, where it welcomes them.</summary>
    public IReadOnlyDictionary<string, JsonElement> OtherMembers { get; }
}
