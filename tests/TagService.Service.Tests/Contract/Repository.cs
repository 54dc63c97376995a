namespace TagService.Service.Tests.Contract;

/// <summary>Files of the repository that tests read.</summary>
internal static class Repository
{
    /// <summary>Folder that holds the solution.</summary>
    public static string Root { get; } = FindRoot();

    private static string FindRoot()
    {
        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            if (File.Exists(Path.Combine(at.FullName, "TagService.sln")))
                return at.FullName;
        }

        throw new InvalidOperationException("TagService.sln is in no folder above the tests.");
    }
}
