using System.ComponentModel.DataAnnotations;
using TagService.Api.Features.TagClasses;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Domain.Recommendations;

namespace TagService.Api.Features.Locations;

/// <summary>A location, whole.</summary>
public sealed record LocationRequest
{
    /// <summary>Id of the location, if sent the same as in the path.</summary>
    [MaxLength(ItemId.MaxLength)]
    public string? Id { get; init; }

    /// <summary>Name for people; other locations may have the same.</summary>
    [MinLength(1), MaxLength(LocationProblems.MaxNameLength), RegularExpression(TextRules.OneLine)]
    public required string Name { get; init; }

    /// <summary>Id of the location it lies in; absent at the top.</summary>
    [MaxLength(ItemId.MaxLength)]
    public string? ParentId { get; init; }

    /// <summary>Names that registers and readers use for it, of 1 to 200 characters. An alias means one location only; case and spacing do not count.</summary>
    [MaxLength(LocationProblems.MaxAliases)]
    public IReadOnlyList<string>? Aliases { get; init; }

    /// <summary>Surroundings of what stands there.</summary>
    public Setting? Setting { get; init; }

    /// <summary>Your own remark.</summary>
    [MaxLength(2000), RegularExpression(TagClassRequest.Storable)]
    public string? Note { get; init; }
}
