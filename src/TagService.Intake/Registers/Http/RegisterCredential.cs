namespace TagService.Intake.Registers.Http;

/// <summary>How a credential is sent.</summary>
public enum CredentialKind
{
    /// <summary><c>Authorization: Bearer</c> (RFC 6750).</summary>
    Bearer,

    /// <summary>A header of the source's own with a key.</summary>
    Header,

    /// <summary><c>Authorization: Basic</c> (RFC 7617).</summary>
    Basic,
}

/// <summary>
/// A credential of the operator's configuration. It names the one origin it may be sent to, because whoever edits sources is not
/// whoever knows the secret: no source can carry it elsewhere.
/// </summary>
public sealed class RegisterCredential
{
    /// <summary>How it is sent.</summary>
    public CredentialKind Kind { get; set; }

    /// <summary>Scheme, host and port it may be sent to, for example <c>https://register.example</c>.</summary>
    public string Origin { get; set; } = "";

    /// <summary>Token or key.</summary>
    public string Secret { get; set; } = "";

    /// <summary>Name of the header for <see cref="CredentialKind.Header"/>.</summary>
    public string HeaderName { get; set; } = "";

    /// <summary>User name for <see cref="CredentialKind.Basic"/>; <see cref="Secret"/> is the password.</summary>
    public string UserName { get; set; } = "";

    /// <summary>Never the secret.</summary>
    public override string ToString() => $"{Kind} credential for {Origin}";
}
