namespace TagService.Api.Http.Problems;

/// <summary>A kind of problem, as listed at /problems.</summary>
/// <param name="Name">Last segment of the type's URI.</param>
/// <param name="Title">Short and always the same for the type.</param>
/// <param name="Status">HTTP status code.</param>
/// <param name="Meaning">What it means.</param>
/// <param name="WhatToDo">What the caller can do about it.</param>
public sealed record ProblemType(string Name, string Title, int Status, string Meaning, string WhatToDo)
{
    /// <summary>The stable URI that identifies the type (RFC 9457, section 3.1.1). It identifies; it need not resolve.</summary>
    public string Uri => $"https://tagservice.example/problems/{Name}";
}
