namespace TagService.Domain.Registers;

/// <summary>Bounds of what a row can put into an asset's attributes.</summary>
public static class AttributeLimits
{
    /// <summary>Most attributes of one row; further columns are dropped and named.</summary>
    public const int Most = 200;

    /// <summary>Longest name in characters; longer ones are cut.</summary>
    public const int LongestName = 200;

    /// <summary>Longest value in characters; longer ones are cut.</summary>
    public const int LongestValue = 2000;
}
