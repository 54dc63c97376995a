namespace TagService.Domain.Identity.Tags;

/// <summary>The first byte of a TID: who gave out the rest (ISO/IEC 15963-1). Not a tag class.</summary>
public enum AllocationClass
{
    /// <summary>No byte was read.</summary>
    None,

    /// <summary>E0h: manufacturer of ISO/IEC 7816-6 and a 48-bit serial.</summary>
    E0,

    /// <summary>E2h: the GS1 layout with mask designer, model number and, if announced, an extended TID.</summary>
    E2,

    /// <summary>E3h: manufacturer of ISO/IEC 7816-6, memory word and a 48-bit serial (layout from memory).</summary>
    E3,

    /// <summary>Another class; the bits are kept as they are.</summary>
    Other,
}
