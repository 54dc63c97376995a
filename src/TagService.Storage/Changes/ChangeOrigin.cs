namespace TagService.Storage.Changes;

/// <summary>Who is changing things in this flow of control; set at the edge, read where changes are written down.</summary>
/// <remarks>Ambient because contexts are pooled: a value kept in one would outlive its request.</remarks>
public static class ChangeOrigin
{
    /// <summary>What the background jobs are called.</summary>
    public const string Service = "service";

    /// <summary>A caller that did not say who it is.</summary>
    public const string UnnamedCaller = "unnamed-caller";

    private static readonly AsyncLocal<string?> Local = new();

    /// <summary>Name of the key, account or job at work; <see cref="Service"/> unless the edge said otherwise.</summary>
    public static string Actor
    {
        get => Local.Value ?? Service;
        set => Local.Value = value;
    }
}
