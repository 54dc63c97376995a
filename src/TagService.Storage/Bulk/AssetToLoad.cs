using TagService.Domain.Recommendations;

namespace TagService.Storage.Bulk;

/// <summary>One asset as its register has it.</summary>
/// <param name="Record">Its record, with the asset id set.</param>
/// <param name="LocationName">Where the register says it is, in its words.</param>
public sealed record AssetToLoad(AssetRecord Record, string? LocationName)
{
    /// <summary>The tag the register knows, as the register writes it.</summary>
    public string? RegisterTag { get; init; }

    /// <summary>That it is retired; null: in service.</summary>
    public Retirement? Retired { get; init; }
}

/// <summary>An asset taken out of service.</summary>
/// <param name="At">When; null: not said, then the time at which it was first heard of counts.</param>
/// <param name="Reason">Why, in the register's words.</param>
public sealed record Retirement(DateTimeOffset? At, string? Reason);
