using TagService.Domain.Recommendations;

namespace TagService.Domain.Registers;

/// <summary>One field of ours that a register's value can go to.</summary>
public sealed record MappingTarget
{
    /// <summary>JSON pointer of the field in an asset record, for example <c>/surface/thicknessMm</c>; or one of the register's own: /location, /tag, /retired.</summary>
    public required string Pointer { get; init; }

    /// <summary>What it takes.</summary>
    public required TargetKind Kind { get; init; }

    /// <summary>Our unit, an id of <see cref="RegisterUnits"/>; null for a count or a plain number.</summary>
    public string? Unit { get; init; }

    /// <summary>Least number accepted, in our unit.</summary>
    public double Least { get; init; } = double.MinValue;

    /// <summary>Greatest number accepted, in our unit.</summary>
    public double Greatest { get; init; } = double.MaxValue;

    /// <summary>Longest text in characters, or most items of a list.</summary>
    public int Longest { get; init; } = 200;

    /// <summary>The words of a choice, as the wire has them.</summary>
    public IReadOnlyList<string> Choices { get; init; } = [];

    /// <summary>
    /// A value that is not understood always refuses the whole row: without it the asset is not known, would be taken for
    /// alive or dead by mistake, or would count as standing outside an explosive atmosphere.
    /// </summary>
    public bool IsVital { get; init; }

    /// <summary>Can also be given by a date: /retired from that day on, /service/lifeYears until that day.</summary>
    public bool TakesDate { get; init; }

    /// <summary>Does a table know this text? Null where every text is as good; texts that no table knows are taken over and counted.</summary>
    internal Func<string, bool>? Recognises { get; init; }

    /// <summary>Reads the field; null when it is not given. Null function: the field is no part of the asset record.</summary>
    internal Func<AssetRecord, object?>? Get { get; init; }

    /// <summary>The record with the field set (null takes it away).</summary>
    internal Func<AssetRecord, object?, AssetRecord>? Set { get; init; }

    /// <summary>What it accepts, in words.</summary>
    public string Accepts => MappingTexts.Accepts(this);
}
