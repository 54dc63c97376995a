namespace TagService.Domain.Identity.Schemes;

/// <summary>GID-96: manager 28, class 24, serial 36 bits, no filter (TDS 2.3, section 14.6.12; read).</summary>
internal sealed class Gid96Scheme() : EpcScheme("GID-96", 0x35, IdentityKind.Gid, 96)
{
    public override int HighestFilter => 0;

    internal override string? Read(ref BitReader reader, out EpcContent content)
    {
        var manager = reader.Read(28);
        var objectClass = reader.Read(24);
        content = new(IdentityKey.OfGid(manager, objectClass, reader.Read(36)));
        return null;
    }

    internal override Refusal? Write(ref BitWriter writer, in EpcContent content)
    {
        var (manager, objectClass, serial) = content.Key.GidFields;
        writer.Write(manager, 28);
        writer.Write(objectClass, 24);
        writer.Write(serial, 36);
        return null;
    }
}
