namespace TagService.LocalDatabase;

/// <summary>
/// The account under which the server runs: our own, or, as root, an unprivileged one, because PostgreSQL refuses to run
/// as root. <see cref="Name"/> is null for our own.
/// </summary>
internal sealed class ServerAccount
{
    private static readonly string[] Unprivileged = ["postgres", "nobody"];

    private readonly string[] prefix;

    private ServerAccount(string? name, string[] prefix)
    {
        Name = name;
        this.prefix = prefix;
    }

    public static ServerAccount Own { get; } = new(null, []);

    public string? Name { get; }

    public static async Task<ServerAccount> ChooseAsync(DataFolder folder, CancellationToken cancellationToken)
    {
        if (OperatingSystem.IsWindows() || !Environment.IsPrivilegedProcess)
            return Own;

        var name = await FindNameAsync(folder, cancellationToken);
        var account = new ServerAccount(name, await FindPrefixAsync(name, cancellationToken));
        if (await OwnerAsync(folder.Root, cancellationToken) == name)
        {
            // A user's own folder: the user must be able to start the service without being root the next time.
            foreach (var file in (string[])[folder.Mark, folder.Lock, folder.OwnerNumber])
                await account.GiveAsync(file, cancellationToken);
        }

        var reach = await account.RunAsync(["test", "-x", folder.Root], cancellationToken);
        if (!reach.Succeeded)
        {
            throw new StartupProblemException(
                $"Started as root, the private database runs under the account {name}, which cannot reach {folder.Root}. {reach.Output}".TrimEnd(),
                "Set LocalDatabase:Folder to a folder below which every parent can be entered by all (such as /var/lib/tagservice), or start the service as a normal user.");
        }

        return account;
    }

    public Task<CommandResult> RunAsync(IReadOnlyList<string> words, CancellationToken cancellationToken) =>
        Command.RunAsync([.. prefix, .. words], cancellationToken);

    /// <summary>Makes the account the owner of a file or folder (of a link itself, not of what it leads to); does nothing for our own account.</summary>
    public async Task GiveAsync(string path, CancellationToken cancellationToken)
    {
        if (Name is null)
            return;
        var result = await Command.RunAsync(["chown", "-h", Name, path], cancellationToken);
        if (!result.Succeeded)
        {
            throw new StartupProblemException(
                $"{path} cannot be given to the account {Name}: {result.Output.Trim()}",
                "Set LocalDatabase:Folder to a folder on a file system with owners, or start the service as a normal user.");
        }
    }

    private static async Task<string> FindNameAsync(DataFolder folder, CancellationToken cancellationToken)
    {
        // Data that are there stay with their owner, who may be a normal user.
        if (folder.HasData && await OwnerAsync(folder.Data, cancellationToken) is { } owner and not "root")
            return owner;

        foreach (var name in Unprivileged)
        {
            if ((await Command.RunAsync(["id", "-u", name], cancellationToken)).Succeeded)
                return name;
        }

        throw new StartupProblemException(
            $"Started as root, the private database needs an unprivileged account, and there is neither {string.Join(" nor ", Unprivileged)}.",
            "Start the service as a normal user, or configure a connection string.");
    }

    private static async Task<string?> OwnerAsync(string path, CancellationToken cancellationToken)
    {
        string[] format = OperatingSystem.IsMacOS() ? ["-f", "%Su"] : ["-c", "%U"];
        var result = await Command.RunAsync(["stat", "-L", .. format, path], cancellationToken);
        return result.Succeeded && result.Output.Trim() is { Length: > 0 } name and not "UNKNOWN" ? name : null;
    }

    /// <summary>The first of the usual programs for changing the account that works here.</summary>
    private static async Task<string[]> FindPrefixAsync(string name, CancellationToken cancellationToken)
    {
        var group = (await Command.RunAsync(["id", "-g", name], cancellationToken)).Output.Trim();
        string[][] ways =
        [
            ["setpriv", $"--reuid={name}", $"--regid={group}", "--clear-groups", "--"],
            ["runuser", "-u", name, "--"],
            ["sudo", "-n", "-u", name, "--"],
        ];
        var last = "";
        foreach (var way in ways)
        {
            var result = await Command.RunAsync([.. way, "id", "-u"], cancellationToken);
            if (result.Succeeded && result.Output.Trim() != "0")
                return way;
            last = result.Output.Trim();
        }

        throw new StartupProblemException(
            $"Started as root, the private database must run under the account {name}, and neither setpriv nor runuser nor sudo can do that here. {last}".TrimEnd(),
            "Install util-linux, start the service as a normal user, or configure a connection string.");
    }
}
