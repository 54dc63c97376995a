using TagService.Domain.Identity.Tags;
using TagService.Domain.Reference;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Fitting;

/// <summary>
/// What to write, which passwords to set and what to lock on one kind of tag. The service neither knows nor prints a password:
/// a policy only says where each one comes from.
/// </summary>
public sealed record WritePolicy
{
    /// <summary>Stable kebab-case id.</summary>
    public required string Id { get; init; }

    /// <summary>Plain name.</summary>
    public required string Name { get; init; }

    /// <summary>Air interface it holds for.</summary>
    public required TagTechnology Technology { get; init; }

    /// <summary>Whether the class has passwords; absent: it makes no difference.</summary>
    public bool? AccessPassword { get; init; }

    /// <summary>Where on the tag the identity goes.</summary>
    public required string IdentityGoesTo { get; init; }

    /// <summary>The steps in order.</summary>
    public required IReadOnlyList<string> Steps { get; init; }

    /// <summary>The passwords to set; empty where the tag has none.</summary>
    public required IReadOnlyList<PasswordRule> Passwords { get; init; }

    /// <summary>The usual setting; absent where the air interface has no lock command of this form.</summary>
    public LockSetting? Lock { get; init; }

    /// <summary>Settings that cannot be undone, only where the owner of the tags wants them.</summary>
    public required IReadOnlyList<OwnersChoice> OwnersChoices { get; init; }

    /// <summary>Where it comes from.</summary>
    public required string Source { get; init; }
}

/// <summary>One password: what it must be like and where it comes from; never the password.</summary>
/// <param name="Name">Its name in the air interface.</param>
/// <param name="Rule">What it must be like.</param>
/// <param name="From">Where it comes from.</param>
public sealed record PasswordRule(string Name, string Rule, string From);

/// <summary>A setting that cannot be undone.</summary>
/// <param name="When">When an owner may want it.</param>
/// <param name="What">What is done and what can then never be done again.</param>
/// <param name="Lock">The setting, where it is one of the lock command.</param>
public sealed record OwnersChoice(string When, string What, LockSetting? Lock = null);

/// <summary>Fields of the lock command of ISO/IEC 18000-63; absent fields stay as they are.</summary>
/// <param name="KillPassword">Kill password.</param>
/// <param name="AccessPassword">Access password.</param>
/// <param name="Epc">EPC memory.</param>
/// <param name="User">User memory.</param>
public sealed record LockSetting(
    LockAction? KillPassword = null, LockAction? AccessPassword = null, LockAction? Epc = null, LockAction? User = null)
{
    /// <summary>The 20 bits of the command.</summary>
    public LockPayload Payload => LockPayload.Of(KillPassword, AccessPassword, Epc, user: User);
}

/// <summary>The write policies by kind of tag.</summary>
public static class WritePolicies
{
    /// <summary>The table.</summary>
    public static ReferenceTable<WritePolicy> Table { get; } = new("write-policies.data.json", p => p.Id);

    /// <summary>The policy of a class: by its air interface, and by whether it has passwords. There is one for every class (tested).</summary>
    /// <param name="tagClass">The class.</param>
    public static WritePolicy For(TagClass tagClass)
    {
        ArgumentNullException.ThrowIfNull(tagClass);
        return Table.All.First(p =>
            p.Technology == tagClass.Technology && (p.AccessPassword ?? tagClass.Memory.AccessPassword) == tagClass.Memory.AccessPassword);
    }
}
