using TagService.Api.Http.Problems;

namespace TagService.Api.Features.Attachments;

/// <summary>One line of a batch, read: what it says, or why it cannot be read.</summary>
/// <param name="Number">Number of the line, from 1.</param>
/// <param name="Value">What it says.</param>
/// <param name="Problem">Why it cannot be read.</param>
internal readonly record struct BatchLine(long Number, AttachmentLineRequest? Value, ApiProblem? Problem);
