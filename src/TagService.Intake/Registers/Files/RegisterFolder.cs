using System.IO.Enumeration;

namespace TagService.Intake.Registers.Files;

/// <summary>A configured folder: only files that really lie in it can be reached, whatever links say.</summary>
internal sealed class RegisterFolder
{
    private const int MostLinks = 40;

    private readonly string _root;

    /// <exception cref="RegisterReadException">The folder is not there.</exception>
    public RegisterFolder(string path, string name)
    {
        if (!Directory.Exists(path))
            throw new RegisterReadException(RegisterFault.NotFound, $"The folder {name} is not there.");
        _root = RealPath(Path.GetFullPath(path));
    }

    /// <summary>Files that match, and names of those that match but lead out of the folder.</summary>
    public (IReadOnlyList<FileInfo> Files, IReadOnlyList<string> Outside) Find(string pattern)
    {
        var files = new List<FileInfo>();
        var outside = new List<string>();
        foreach (var file in new DirectoryInfo(_root).EnumerateFiles())
        {
            if (!FileSystemName.MatchesSimpleExpression(pattern, file.Name, ignoreCase: true))
                continue;
            if (IsInside(file.FullName))
                files.Add(Target(file));
            else
                outside.Add(file.Name);
        }

        return (files, outside);
    }

    /// <summary>Opens a file for reading; what leads out of the folder in the meantime is refused.</summary>
    /// <exception cref="RegisterReadException">It is gone, cannot be read, or leads out of the folder.</exception>
    public FileStream Open(FileInfo file)
    {
        try
        {
            var stream = new FileStream(file.FullName, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, 128 * 1024, FileOptions.SequentialScan);
            if (IsInside(file.FullName))
                return stream;
            stream.Dispose();
            throw new RegisterReadException(RegisterFault.ForbiddenAddress, $"{file.Name} leads out of its folder.");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new RegisterReadException(e is FileNotFoundException ? RegisterFault.NotFound : RegisterFault.Unreachable, $"{file.Name} cannot be opened.", e);
        }
    }

    private bool IsInside(string path)
    {
        try
        {
            return Path.GetDirectoryName(RealPath(path)) == _root;
        }
        catch (IOException)
        {
            return false;
        }
    }

    private static FileInfo Target(FileInfo file)
    {
        // Size and time of the file itself, not of a link to it; its name stays.
        return file.LinkTarget is null ? file : new(RealPath(file.FullName));
    }

    // Every part of the path with its links followed.
    private static string RealPath(string path)
    {
        var links = 0;
        var real = Path.GetPathRoot(path)!;
        var parts = new Stack<string>(path[real.Length..].Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries).Reverse());
        while (parts.TryPop(out var part))
        {
            if (part == ".")
                continue;
            if (part == "..")
            {
                real = Path.GetDirectoryName(real) ?? real;
                continue;
            }

            var next = Path.Combine(real, part);
            if (new FileInfo(next).LinkTarget is not { } target)
            {
                real = next;
                continue;
            }

            if (++links > MostLinks)
                throw new IOException("Too many links.");
            if (Path.IsPathRooted(target))
                real = Path.GetPathRoot(target)!;
            foreach (var step in target.Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries).Reverse())
                parts.Push(step);
        }

        return real;
    }
}
