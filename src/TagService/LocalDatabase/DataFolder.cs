using System.Globalization;
using Npgsql;

namespace TagService.LocalDatabase;

/// <summary>The folder of the private database: what lies where in it, and whether it is ours to use.</summary>
internal sealed class DataFolder
{
    public const string User = "tagservice";

    private const string MarkText =
        "This folder belongs to the private PostgreSQL database of TagService.\n"
        + "data/ holds the data, password the database user's password, server.log the server's messages.\n"
        + "Whoever deletes the folder deletes the data.\n";

    private DataFolder(string root) => Root = root;

    public string Root { get; }

    public string Data => Path.Combine(Root, "data");

    /// <summary>Where a new database cluster is made before it is complete; an interrupted first start leaves only this.</summary>
    public string UnfinishedData => Path.Combine(Root, "data.unfinished");

    public string Password => Path.Combine(Root, "password");

    public string Log => Path.Combine(Root, "server.log");

    public string Mark => Path.Combine(Root, "tagservice-database.txt");

    public string Lock => Path.Combine(Root, "owner.lock");

    public string OwnerNumber => Path.Combine(Root, "owner.pid");

    /// <summary>Server programs that were downloaded.</summary>
    public string Programs => Path.Combine(Root, "programs");

    public bool HasData => Directory.Exists(Data);

    /// <summary>The major version of PostgreSQL that made the data, null if there are none yet.</summary>
    public int? DataMajor
    {
        get
        {
            if (!HasData)
                return null;
            var file = Path.Combine(Data, "PG_VERSION");
            if (File.Exists(file) && int.TryParse(File.ReadAllText(file).Trim(), CultureInfo.InvariantCulture, out var major))
                return major;
            throw new StartupProblemException(
                $"{Data} has no readable PG_VERSION: it is not a complete PostgreSQL data folder.",
                $"Restore {Root} from a backup, or move it away to begin with an empty database.");
        }
    }

    public static DataFolder Prepare(string? configured)
    {
        var root = Path.GetFullPath(string.IsNullOrWhiteSpace(configured) ? DefaultRoot() : configured);
        var folder = new DataFolder(root);
        try
        {
            folder.Create();
            folder.RefuseLinks();
            if (!File.Exists(folder.Mark))
            {
                // A fresh file system's own folder does not count.
                var foreign = Directory.EnumerateFileSystemEntries(root).FirstOrDefault(entry => Path.GetFileName(entry) != "lost+found");
                if (foreign is not null)
                {
                    throw new StartupProblemException(
                        $"The folder {root} is not TagService's: it holds {Path.GetFileName(foreign)}, and no {Path.GetFileName(folder.Mark)}.",
                        "Set LocalDatabase:Folder to an empty or new folder.");
                }
            }

            // Written at every start: this also shows early that the folder can be written to.
            File.WriteAllText(folder.Mark, MarkText);
        }
        catch (Exception exception) when (exception is UnauthorizedAccessException or IOException or NotSupportedException)
        {
            throw new StartupProblemException(
                $"The folder {root} of the private database cannot be created or written to: {exception.Message}",
                $"Make it writable for {Environment.UserName}, or set LocalDatabase:Folder to a folder that is; or configure a connection string.");
        }

        return folder;
    }

    public static void CreatePrivateFolder(string path)
    {
        if (OperatingSystem.IsWindows())
            Directory.CreateDirectory(path);
        else
            Directory.CreateDirectory(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
    }

    /// <summary>A file that only its owner can read.</summary>
    public static void CreatePrivateFile(string path, FileMode mode, string text = "")
    {
        var options = new FileStreamOptions { Mode = mode, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        using var writer = new StreamWriter(path, options);
        writer.Write(text);
    }

    public string ConnectionString(int port, string database, bool pooled = true)
    {
        if (!File.Exists(Password))
        {
            throw new StartupProblemException(
                $"The password file {Password} is missing.",
                $"Put it back from a backup, or move {Root} away to begin with an empty database.");
        }

        return new NpgsqlConnectionStringBuilder
        {
            Host = "127.0.0.1",
            Port = port,
            Username = User,
            Password = File.ReadAllText(Password).Trim(),
            Database = database,
            Pooling = pooled,
            SslMode = SslMode.Disable,
            GssEncryptionMode = GssEncryptionMode.Disable,
        }.ConnectionString;
    }

    /// <summary>
    /// As root the folder stays root's, and only the data, password and log in it are the server account's: so that account
    /// cannot put a link where root writes next time.
    /// </summary>
    private void Create()
    {
        if (!OperatingSystem.IsWindows() && Environment.IsPrivilegedProcess)
            Directory.CreateDirectory(Root);
        else
            CreatePrivateFolder(Root);
    }

    /// <summary>In a folder that another account can write to, root must not write through a link.</summary>
    private void RefuseLinks()
    {
        if (OperatingSystem.IsWindows() || !Environment.IsPrivilegedProcess)
            return;
        var link = Array.Find([Mark, Lock, OwnerNumber, Password, Log, Programs], path => new FileInfo(path).LinkTarget is not null);
        if (link is not null)
            throw new StartupProblemException($"{link} is a link, which is not followed as root.", "Remove the link, or start the service as a normal user.");
    }

    private static string DefaultRoot()
    {
        if (!OperatingSystem.IsWindows() && Environment.IsPrivilegedProcess)
            return "/var/lib/tagservice";

        var parent = Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
        if (parent.Length > 0)
            return Path.Combine(parent, "TagService");
        throw new StartupProblemException(
            "There is no home folder to keep the private database in.",
            "Set HOME, or set LocalDatabase:Folder, or configure a connection string.");
    }
}
