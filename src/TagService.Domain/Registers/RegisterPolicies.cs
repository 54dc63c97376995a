namespace TagService.Domain.Registers;

/// <summary>Who is believed when a register's tag column and the recorded attachments disagree.</summary>
public enum TagAuthority
{
    /// <summary>Our attachments: the register is told by its corrections.</summary>
    Attachments,

    /// <summary>The register: what its tag column says is recorded as attachments.</summary>
    Register,
}

/// <summary>What becomes of an asset that a complete list of its register names no more.</summary>
public enum WhenMissing
{
    /// <summary>It is retired, unless another source still lists it.</summary>
    Retire,

    /// <summary>It stays as it is.</summary>
    Keep,
}
