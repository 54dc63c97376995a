using System.ComponentModel.DataAnnotations;
using TagService.Api.Http;

namespace TagService.Api.Features.RegisterSyncs;

/// <summary>A run that is asked for.</summary>
public sealed record RegisterSyncRequest
{
    /// <summary>Name of the register source.</summary>
    [MinLength(1), MaxLength(ItemId.MaxLength)]
    public required string Source { get; init; }

    /// <summary>Read everything, also where the source can tell what changed.</summary>
    public bool FullPass { get; init; }

    /// <summary>Retire assets that the source lists no more however many they are; makes it a full pass.</summary>
    public bool AcceptMissing { get; init; }
}
