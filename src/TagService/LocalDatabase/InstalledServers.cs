namespace TagService.LocalDatabase;

/// <summary>Where PostgreSQL's server programs are when they are installed.</summary>
internal static class InstalledServers
{
    /// <summary>A folder, and below it the names (with one star) under which versions lie, and the rest of the path.</summary>
    private static readonly (string Parent, string Versions, string Below)[] Places =
    [
        ("/usr/lib/postgresql", "*", "bin"), // Debian, Ubuntu
        ("/usr", "pgsql-*", "bin"), // PostgreSQL's own packages for Red Hat and its kin
        ("/usr/libexec", "postgresql*", ""), // Alpine
        ("/opt/homebrew/opt", "postgresql*", "bin"), // Homebrew on Arm
        ("/usr/local/opt", "postgresql*", "bin"), // Homebrew on Intel
        ("/home/linuxbrew/.linuxbrew/opt", "postgresql*", "bin"),
        (Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.ProgramFiles), "PostgreSQL"), "*", "bin"), // Windows
    ];

    /// <summary>Every folder that has an <c>initdb</c>, each once; which version it is and whether it works, the caller finds out.</summary>
    public static IEnumerable<string> Folders() =>
        Places.SelectMany(VersionsAt).Concat(OnPath()).Distinct();

    private static IEnumerable<string> VersionsAt((string Parent, string Versions, string Below) place)
    {
        if (!Directory.Exists(place.Parent))
            return [];
        try
        {
            return [.. Directory.EnumerateDirectories(place.Parent, place.Versions).Select(version => Path.Combine(version, place.Below).TrimEnd('/')).Where(HasInitdb)];
        }
        catch (UnauthorizedAccessException)
        {
            return [];
        }
    }

    private static IEnumerable<string> OnPath()
    {
        foreach (var folder in (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries))
        {
            if (!Path.IsPathRooted(folder) || !HasInitdb(folder))
                continue;
            // A link on the path leads to the folder that has the other programs as well.
            var target = File.ResolveLinkTarget(Path.Combine(folder, ExecutableName("initdb")), returnFinalTarget: true);
            yield return target?.Exists == true ? Path.GetDirectoryName(target.FullName)! : folder;
        }
    }

    private static bool HasInitdb(string folder) => File.Exists(Path.Combine(folder, ExecutableName("initdb")));

    private static string ExecutableName(string name) => OperatingSystem.IsWindows() ? name + ".exe" : name;
}
