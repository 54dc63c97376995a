namespace TagService.Domain.Identity;

/// <summary>What an identity is the identity of: the GS1 key or the other numbering it belongs to.</summary>
public enum IdentityKind : byte
{
    /// <summary>Bits that are no known identity; compared bit by bit.</summary>
    Raw,

    /// <summary>Global individual asset identifier, AI 8004.</summary>
    Giai,

    /// <summary>Global returnable asset identifier with serial, AI 8003.</summary>
    Grai,

    /// <summary>Trade item with serial, AI 01 and 21.</summary>
    Sgtin,

    /// <summary>Serial shipping container code, AI 00.</summary>
    Sscc,

    /// <summary>Location with or without extension, AI 414 and 254.</summary>
    Sgln,

    /// <summary>Document type with serial, AI 253.</summary>
    Gdti,

    /// <summary>Service relation, recipient, AI 8018.</summary>
    Gsrn,

    /// <summary>Service relation, provider, AI 8017.</summary>
    Gsrnp,

    /// <summary>Component or part with serial, AI 8010 and 8011.</summary>
    Cpi,

    /// <summary>Coupon with serial, AI 255.</summary>
    Sgcn,

    /// <summary>Piece of a trade item with serial, AI 8006 and 21.</summary>
    Itip,

    /// <summary>General identifier; new manager numbers ended in June 2023.</summary>
    Gid,

    /// <summary>Aerospace and defence identifier: CAGE or DoDAAC, part number, serial.</summary>
    Adi,

    /// <summary>Defence supplier's identifier: CAGE or DoDAAC and serial.</summary>
    Usdod,
}
