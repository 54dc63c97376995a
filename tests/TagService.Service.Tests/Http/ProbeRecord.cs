using System.ComponentModel.DataAnnotations;
using System.Text.Json;
using System.Text.Json.Serialization;
using TagService.Domain.Recommendations;

namespace TagService.Service.Tests.Http;

/// <summary>A record with every kind of member, for tests of the strict reader.</summary>
public sealed record ProbeRecord
{
    public string? AssetId { get; init; }

    public string? Category { get; init; }

    public SurfaceRecord? Surface { get; init; }

    public MountingRecord? Mounting { get; init; }

    public EnvironmentRecord? Environment { get; init; }

    public ReadingRecord? Reading { get; init; }

    public ServiceRecord? Service { get; init; }

    [MaxLength(3)]
    public IReadOnlyList<ProbeObservation>? Observations { get; init; }

    public IReadOnlyDictionary<string, string>? Attributes { get; init; }

    public DateTimeOffset? SeenAt { get; init; }

    public double? AnyNumber { get; init; }

    [JsonExtensionData]
    public Dictionary<string, JsonElement>? OtherMembers { get; init; }
}

/// <summary>An item of a list, with constructor parameters.</summary>
public sealed record ProbeObservation([property: Range(0, 100)] double LeftYears, [property: Range(1, 1000)] int Count = 1);
