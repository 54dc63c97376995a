using TagService.Domain.Identity.Text;

namespace TagService.Storage.Bulk;

/// <summary>The identity that a register's tag column names.</summary>
public static class RegisterTagKey
{
    /// <summary>Canonical text of the identity, or null when the column is empty or its text is none.</summary>
    /// <param name="registerTag">The tag as the register writes it.</param>
    public static string? Of(string? registerTag) =>
        registerTag is not null && IdentityText.Parse(registerTag) is IdentityRead read ? read.Key.ToString() : null;
}
