namespace TagService.Service.Tests.LocalDatabase;

/// <summary>A folder for one test, open to every account (so that a server run under another one can reach below it), deleted at the end.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    public TemporaryFolder()
    {
        Path = Directory.CreateTempSubdirectory("tagservice-test-").FullName;
        SetMode(Path, "777");
    }

    public string Path { get; }

    public string Below(string name) => System.IO.Path.Combine(Path, name);

    public static void SetMode(string path, string octal)
    {
        if (!OperatingSystem.IsWindows())
            File.SetUnixFileMode(path, (UnixFileMode)Convert.ToInt32(octal, 8));
    }

    public void Dispose()
    {
        if (Directory.Exists(Path))
            Directory.Delete(Path, recursive: true);
    }
}
