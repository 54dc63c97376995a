using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>Lists of the setting rows in normal form.</summary>
internal static class EnvironmentLists
{
    private static readonly IReadOnlyList<string>[] IpBySetting =
    [
        .. Enum.GetValues<Setting>().Select(s => Settings.Of(s).Environment.IpRequired!.Select(c => IpCodes.Normalise(c)!).ToArray()),
    ];

    public static IReadOnlyList<string> IpRequired(Setting setting) => IpBySetting[(int)setting];

    /// <summary>Both lists without doublets, in order.</summary>
    public static IReadOnlyList<string> Union(IReadOnlyList<string> a, IReadOnlyList<string> b)
    {
        List<string>? union = null;
        foreach (var item in b)
        {
            if (Contains(a, item))
                continue;
            union ??= [.. a];
            union.Add(item);
        }

        return union ?? a;
    }

    private static bool Contains(IReadOnlyList<string> list, string item)
    {
        foreach (var x in list)
        {
            if (string.Equals(x, item, StringComparison.Ordinal))
                return true;
        }

        return false;
    }
}
