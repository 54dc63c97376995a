using TagService.Domain.Units;

namespace TagService.Domain.Registers;

/// <summary>Whether so many assets may have gone at once, or the list is rather broken.</summary>
public static class MissingAssets
{
    /// <summary>So many may always go: a share of a handful of assets says nothing.</summary>
    public const int AlwaysAllowed = 10;

    /// <summary>
    /// Most assets that one run may retire: <c>max(10, floor(share * listed))</c>. A planning rule of this service, no standard:
    /// it separates everyday disposals from an export that broke off, not right from wrong.
    /// </summary>
    /// <param name="listedBefore">Assets that the source listed before and that are in service, 0 or more.</param>
    /// <param name="mostShare">Share of them that may go in one run, from 0 to 1.</param>
    /// <returns>Number of assets.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static long MostAllowed(long listedBefore, double mostShare)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(listedBefore);
        Guard.InRange(mostShare, 0, 1);
        return Math.Max(AlwaysAllowed, (long)Math.Floor(mostShare * listedBefore));
    }
}
